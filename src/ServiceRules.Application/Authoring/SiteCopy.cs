using ServiceRules.Application.Library;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Registers;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Authoring;

/// <summary>The rules of the trade out of a folder, without the site in it and without the rules of that site.</summary>
internal static class SiteCopy
{
    /// <summary>What the examples that cases start from are said to be of.</summary>
    private const string ExampleSite = "Example of the rules";

    /// <param name="rules">The folder.</param>
    /// <param name="into">Where the copy goes.</param>
    /// <returns>How many files were copied.</returns>
    public static int Of(LoadedRules rules, string into)
    {
        var files = FolderListing.Of(rules.Folder, new FolderRemarks());
        var ofSite = files
            .Where(file => RuleFileNames.KindOf(file) is RuleFileKind.Site or RuleFileKind.Registers)
            .Select(file => file.Folder)
            .Concat(
                rules
                    .Library.Packs.Where(pack => pack.Pack.Layer is PackLayer.Site)
                    .Select(pack => new RuleFile(pack.File, pack.File).Folder)
            )
            .ToHashSet(StringComparer.Ordinal);
        var count = 0;
        foreach (var file in files.Where(file => !IsOfSite(file, ofSite)))
        {
            var path = Path.Combine(into, file.Name);
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            File.WriteAllBytes(path, Content(file));
            count++;
        }

        return count;
    }

    private static bool IsOfSite(RuleFile file, HashSet<string> folders) =>
        RuleFileNames.KindOf(file) is RuleFileKind.Procedure or RuleFileKind.SettingOrder
        || folders.Any(folder =>
            file.Folder == folder || file.Folder.StartsWith(folder + "/", StringComparison.Ordinal)
        );

    // An example job is of no shop.
    private static byte[] Content(RuleFile file)
    {
        var content = File.ReadAllBytes(file.Path);
        return
            RuleFileNames.KindOf(file) is RuleFileKind.FixtureContext
            && ContextFormat.Current.Read(content).TryGet(out var context, out var source, out _)
            ? ContextFormat.Current.WriteLaidOut(
                context with
                {
                    Site = ExampleSite,
                },
                DocumentFormat<Domain.Site.AssessmentContext>.SchemaOf(source)
            )
            : content;
    }
}
