using System.Collections.Immutable;
using ServiceRules.Application.Filed;
using ServiceRules.Application.Library;
using ServiceRules.Application.RuleCases;
using ServiceRules.Application.RuleCases.Coverage;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Packs;

/// <summary>
/// Tries packs and sheets that somebody sent, beside the registers of a folder of rules: everything that is wrong with them,
/// and whether their cases come out as they say. They are put on the disk for as long as that takes.
/// </summary>
public static class TryPack
{
    /// <param name="sent">The files.</param>
    /// <param name="registers">The folder of rules whose registers they are held against.</param>
    /// <param name="scratch">A private folder to unpack in; made where there is none.</param>
    /// <param name="rule">Identity text of the only rule to test; null: all.</param>
    /// <param name="isChecked">Whether cases need not be run, since packs and sheets of this digest were tried before.</param>
    /// <param name="stop">Whether nobody waits any more.</param>
    public static PackTried Run(
        ImmutableArray<PackFile> sent,
        string registers,
        string scratch,
        string? rule,
        Func<string, bool> isChecked,
        CancellationToken stop
    )
    {
        ArgumentNullException.ThrowIfNull(isChecked);
        PrivateFolder.Begin(scratch);
        var folder = Path.Combine(scratch, Path.GetRandomFileName());
        PrivateFolder.Begin(folder);
        try
        {
            var own = sent.Where(file => !IsOfRegisters(file.Name)).ToList();
            foreach (var file in own)
            {
                Put(folder, file.Name, file.Content.Span);
            }

            foreach (var file in FolderListing.Of(registers, new()).Where(file => IsOfRegisters(file.Name)))
            {
                Put(folder, file.Name, File.ReadAllBytes(file.Path));
            }

            var loaded = RuleFolder.Load(folder);
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
        finally
        {
            Directory.Delete(folder, recursive: true);
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
