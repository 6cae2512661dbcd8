using System.Collections.Immutable;
using ServiceRules.Application.Library;
using ServiceRules.Formats.Cases;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Packs;
using ServiceRules.Formats.Registers;
using ServiceRules.Formats.Sheets;

namespace ServiceRules.Application.Authoring;

/// <summary>
/// The canonical form of the files of a folder of rules: what says the same is written the same. Fixtures are records as
/// they were entered, and schemas are generated; both are left alone.
/// </summary>
public static class CanonicalRules
{
    /// <summary>The files of a folder that have a canonical form, in one order on every machine.</summary>
    public static ImmutableArray<string> FilesOf(string folder, out ImmutableArray<string> problems)
    {
        FolderRemarks remarks = new();
        ImmutableArray<string> files =
        [
            .. FolderListing
                .Of(folder, remarks)
                .Where(file => HasForm(RuleFileNames.KindOf(file)))
                .Select(file => file.Path),
        ];
        problems = [.. remarks.InOrder().Select(remark => remark.ToString())];
        return files;
    }

    /// <summary>Whether a file is one of a folder of rules that has a canonical form, by its name and place.</summary>
    public static bool IsSuch(string path) => HasForm(KindOf(path));

    /// <summary>What a file has to be called to be one.</summary>
    public static string Accepted => RuleFileNames.Accepted;

    /// <summary>A file and its canonical form.</summary>
    /// <param name="path">Where it stands; its name tells what it is.</param>
    /// <param name="bytes">What stands in it.</param>
    public static CanonicalFile Of(string path, ReadOnlyMemory<byte> bytes) =>
        KindOf(path) switch
        {
            RuleFileKind.PackHead => Of(path, bytes, RulePackFormat.Head),
            RuleFileKind.Rules => Of(path, bytes, RulePackFormat.Rules),
            RuleFileKind.Citations => Of(path, bytes, RulePackFormat.Citations),
            RuleFileKind.Cases => Of(path, bytes, RuleCasesFormat.Current),
            RuleFileKind.Sheet => Of(path, bytes, LimitSheetFormat.Current),
            RuleFileKind.Site => Of(path, bytes, SiteFormat.Site),
            RuleFileKind.Registers => Of(path, bytes, SiteFormat.Registers),
            RuleFileKind.Procedure => Of(path, bytes, SiteFormat.Procedure),
            RuleFileKind.SettingOrder => Of(path, bytes, SettingOrderFormat.Current),
            _ => throw new ArgumentException("a file of this name has no canonical form", nameof(path)),
        };

    private static CanonicalFile Of<T>(string path, ReadOnlyMemory<byte> bytes, DocumentFormat<T> format)
        where T : notnull
    {
        if (!format.Read(bytes).TryGet(out var value, out var source, out var problems))
        {
            return new(path, default, problems, false);
        }

        var laid = format.WriteLaidOut(value, DocumentFormat<T>.SchemaOf(source));
        if (!format.Read(laid).TryGet(out var again, out problems))
        {
            // Laid out it may be larger than what is read; then it stays as it is.
            return new(path, default, problems, false);
        }

        return format.Write(again).AsSpan().SequenceEqual(format.Write(value))
            ? new(path, laid, ProblemReport.None, bytes.Span.SequenceEqual(laid))
            : throw new InvalidOperationException($"`{path}` would say something else in its canonical form");
    }

    private static RuleFileKind KindOf(string path) =>
        RuleFileNames.KindOf(new(Path.GetFullPath(path).Replace('\\', '/'), path));

    private static bool HasForm(RuleFileKind kind) =>
        kind
            is not (
                RuleFileKind.Unknown
                or RuleFileKind.Schema
                or RuleFileKind.FixtureRecord
                or RuleFileKind.FixtureContext
            );
}
