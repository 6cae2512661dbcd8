using System.Collections.Immutable;
using ServiceRules.Application.Comparing;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Cli.Printing;

/// <summary>What two folders of rules say differently, in words.</summary>
internal static class ChangeWords
{
    // More than this on one line is read by nobody; the header tells every change.
    private const int MostOnALine = 3;

    public static string Of(ChangeKind kind) =>
        kind switch
        {
            ChangeKind.RuleAdded => "rule added",
            ChangeKind.RuleRemoved => "rule removed",
            ChangeKind.Condition => "condition changed",
            ChangeKind.Check => "check changed",
            ChangeKind.Decision => "decision changed",
            ChangeKind.Severity => "severity changed",
            ChangeKind.Limit => "limit changed",
            ChangeKind.UnitKind => "kind of unit changed",
            ChangeKind.SheetAdded => "limit sheet added",
            ChangeKind.SheetRemoved => "limit sheet removed",
            ChangeKind.Setting => "setting changed",
            ChangeKind.Waiver => "waiver changed",
            ChangeKind.Jurisdiction => "jurisdiction changed",
            ChangeKind.Register => "register changed",
            ChangeKind.Citation => "citation changed",
            ChangeKind.Words => "words changed",
            _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, null),
        };

    /// <summary>One change: what, of which, from and to.</summary>
    public static string Of(FolderChange change)
    {
        var quantity = change.Quantity is { } one ? $" {ReportWords.Of(one)}" : "";
        var parts = change.Parts.IsEmpty ? "" : $": {PartChangeWords.Of(change.Parts)}";
        return $"{change.Of}{quantity}{parts}";
    }

    /// <summary>The causes of a flip, on one line.</summary>
    public static string Of(ImmutableArray<FlipCause> causes)
    {
        if (causes.IsEmpty)
        {
            return "no one kind of change does it alone";
        }

        var told = causes.Select(cause => $"{Of(cause.Kind)} ({Some(cause.Changes)})");
        return causes.All(cause => cause.IsAlone)
            ? string.Join(", or by itself ", told)
            : string.Join(" together with ", told);
    }

    private static string Some(ImmutableArray<FolderChange> changes)
    {
        var told = string.Join("; ", changes.Take(MostOnALine).Select(Of));
        return changes.Length > MostOnALine ? $"{told}; and {changes.Length - MostOnALine} more" : told;
    }
}
