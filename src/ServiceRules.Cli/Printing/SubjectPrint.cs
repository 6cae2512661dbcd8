using System.Collections.Immutable;
using ServiceRules.Application.Ledger;
using ServiceRules.Domain.Timeline;
using Spectre.Console;

namespace ServiceRules.Cli.Printing;

/// <summary>The versions of something that was filed, the oldest first.</summary>
internal sealed class SubjectPrint(
    IAnsiConsole screen,
    string subject,
    ImmutableArray<SubjectVersion> versions
)
{
    // A whole unit that was added is seen by its beginning; the export has the rest.
    private const int LongestValue = 120;

    /// <summary>Prints them.</summary>
    /// <param name="isOneOfSeveral">Whether other things of another kind bear the same identity.</param>
    public void Print(bool isOneOfSeveral)
    {
        if (isOneOfSeveral)
        {
            screen.WriteLine();
        }

        var kind = isOneOfSeveral ? $" ({FilingPrint.Word(versions[0].Entry.Entry.Kind)})" : "";
        screen.MarkedLine(
            $"[bold]{subject}[/]{kind}: {versions.Length} {(versions.Length == 1 ? "version" : "versions")}"
        );
        foreach (var version in versions)
        {
            Print(version);
        }
    }

    private void Print(SubjectVersion version)
    {
        var entry = version.Entry.Entry;
        screen.WriteLine();
        screen.MarkedLine(
            $"[bold]entry {version.Entry.Index}[/]  {UtcTime.Print(entry.At)}  {FilingPrint.Word(entry.Kind)}{By(version)}"
        );
        if (version.Sent(namesPerson: true) is { } sent)
        {
            screen.TextLine($"  {sent}");
        }

        if (entry.Corrects is { } corrects)
        {
            screen.TextLine($"  corrects entry {corrects.Index}");
        }

        if (entry.Reason is { } reason)
        {
            // Further lines stay under the first, where none can be taken for ours.
            var lines = reason.ReplaceLineEndings("\n").Split('\n');
            screen.TextLine($"  because: {lines[0]}");
            foreach (var further in lines.Skip(1))
            {
                screen.TextLine($"           {further}");
            }
        }

        screen.TextLine($"  content {entry.Content}{(version.WhyNone is { } why ? $", {why}" : "")}");
        Print(version.Changes);
        foreach (var judged in version.Assessments)
        {
            var word = judged.Assessment?.Job.Disposition.ToString().ToLowerInvariant() ?? judged.WhyNone;
            screen.TextLine(
                $"  assessment   entry {judged.Entry.Index}, {UtcTime.Print(judged.Entry.Entry.At)}: {word}"
                    + (judged.Entry.Entry.Reason is { } because ? $", {because}" : "")
            );
        }

        foreach (var change in version.Verdicts)
        {
            var what = change.Rule is null ? "disposition" : change.Rule;
            screen.TextLine(
                $"  verdict      {change.Subject}, {what}: {change.Old ?? "none"} -> {change.New ?? "none"}"
                    + (change.Statement is { } told ? $" ({told})" : "")
            );
        }

        foreach (var report in version.Reports)
        {
            screen.TextLine(
                $"  report       entry {report.Index}, {UtcTime.Print(report.Entry.At)}, {report.Entry.Content}"
            );
        }
    }

    private void Print(ImmutableArray<JsonChange>? changes)
    {
        foreach (var change in changes ?? [])
        {
            screen.TextLine(
                $"  changed      {change.Pointer}: {Short(change.Old) ?? "(nothing)"} -> {Short(change.New) ?? "(gone)"}"
            );
        }
    }

    private static string By(SubjectVersion version) =>
        (version.Person, version.Entry.Entry.By) switch
        {
            ({ } person, { } pseudonym) => $"  by {person} ({pseudonym})",
            (null, { } pseudonym) => $"  by {pseudonym} (forgotten)",
            _ => "",
        };

    private static string? Short(string? value) =>
        value is { Length: > LongestValue } ? value[..LongestValue] + "…" : value;
}
