using System.Collections.Immutable;
using ServiceRules.Application.Filed;
using ServiceRules.Application.Library;
using ServiceRules.Application.RuleCases;
using ServiceRules.Application.RuleCases.Coverage;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Packs;

/// <summary>
/// Tries packs and sheets that somebody sent, beside the registers of each site that is judged by them: everything that is wrong
/// with them, and whether their cases come out as they say. They are put on the disk for as long as that takes.
/// </summary>
public static class TryPack
{
    /// <param name="sent">The files.</param>
    /// <param name="registers">The folders of rules, or of sites, whose registers they are held against; at least one.</param>
    /// <param name="scratch">A private folder to unpack in; made where there is none.</param>
    /// <param name="rule">Identity text of the only rule to test; null: all.</param>
    /// <param name="isChecked">Whether cases need not be run, since packs and sheets of this digest were tried before.</param>
    /// <param name="stop">Whether nobody waits any more.</param>
    public static PackTried Run(
        ImmutableArray<PackFile> sent,
        IReadOnlyList<string> registers,
        string scratch,
        string? rule,
        Func<string, bool> isChecked,
        CancellationToken stop
    )
    {
        ArgumentNullException.ThrowIfNull(registers);
        ArgumentNullException.ThrowIfNull(isChecked);
        PrivateFolder.Begin(scratch);
        var own = sent.Where(file => !IsOfRegisters(file.Name)).ToList();
        // What is wrong with the packs alone is told once, whichever registers they lie beside.
        ImmutableArray<Diagnostic> further =
        [
            .. registers.Skip(1).SelectMany(site => Beside(own, site, scratch, loaded => loaded.Diagnostics)),
        ];
        return Beside(own, registers[0], scratch, Tried);

        PackTried Tried(LoadedRules first)
        {
            var loaded = first with { Diagnostics = [.. first.Diagnostics.Union(further)] };
            var tried = new PackTried(
                loaded,
                DigestOf(loaded.Book),
                [.. sent.Select(file => file.Name).Where(IsOfRegisters)]
            );
            if (!loaded.IsSound || isChecked(tried.Digest))
            {
                return tried;
            }

            var tested = TestRules.Run(loaded, rule, new UntilStopped(stop));
            return tried with { Tested = tested, Coverage = CoverRules.Of(loaded, tested, rule) };
        }
    }

    /// <summary>The digest by which assessments name packs and sheets.</summary>
    public static string DigestOf(RuleBook book) => RuleDocument.Of(book).Digest;

    /// <summary>Removes what was left unpacked by one that was killed.</summary>
    public static void Clear(string scratch)
    {
        if (Directory.Exists(scratch))
        {
            Directory.Delete(scratch, recursive: true);
        }
    }

    // For as long as the work takes, the files that were sent lie in one folder with the registers of a site.
    private static T Beside<T>(
        List<PackFile> sent,
        string registers,
        string scratch,
        Func<LoadedRules, T> work
    )
    {
        var folder = Path.Combine(scratch, Path.GetRandomFileName());
        PrivateFolder.Begin(folder);
        try
        {
            foreach (var file in sent)
            {
                Put(folder, file.Name, file.Content.Span);
            }

            var files = FolderListing.Of(registers, new()).Where(file => IsOfRegisters(file.Name)).ToList();
            // A folder of a site alone keeps its name, so that what is told of several can be told apart.
            var place = files.Exists(file =>
                RuleFileNames.KindOf(file) is RuleFileKind.Site && file.Folder.Length == 0
            )
                ? OwnName(registers)
                : "";
            foreach (var file in files)
            {
                Put(folder, Path.Combine(place, file.Name), File.ReadAllBytes(file.Path));
            }

            return work(RuleFolder.Load(folder));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    // A folder whose name begins with a dot is read by nobody.
    private static string OwnName(string folder) =>
        new DirectoryInfo(folder).Name.TrimStart('.') is { Length: > 0 } name ? name : "site";

    private static bool IsOfRegisters(string name) =>
        RuleFileNames.KindOf(new RuleFile(name, ""))
            is RuleFileKind.Site
                or RuleFileKind.Registers
                or RuleFileKind.Procedure
                or RuleFileKind.SettingOrder;

    private static void Put(string folder, string name, ReadOnlySpan<byte> content)
    {
        var path = Path.Combine(folder, name);
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        File.WriteAllBytes(path, content);
    }

    /// <summary>Ends a long run between two cases.</summary>
    private sealed class UntilStopped(CancellationToken stop) : IProgress<int>
    {
        public void Report(int value) => stop.ThrowIfCancellationRequested();
    }
}
