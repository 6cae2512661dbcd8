using System.Collections.Immutable;
using ServiceRules.Application.Comparing;
using ServiceRules.Application.Filed;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Reports.Words;
using Spectre.Console;

namespace ServiceRules.Cli.Printing;

/// <summary>What would change: what the folders say differently, each record that comes out otherwise, and totals.</summary>
internal sealed class ComparePrint(IAnsiConsole screen, bool showAll) : ICompareTelling
{
    public void Heading(string old, string now, ImmutableArray<FolderChange> changes)
    {
        screen.TextLine($"From {old} to {now}:");
        if (changes.IsEmpty)
        {
            screen.TextLine("  nothing is said differently that judges a record or is shown with a finding");
        }

        foreach (var change in changes.OrderBy(change => change.Kind))
        {
            screen.TextLine($"  {ChangeWords.Of(change.Kind)}: {ChangeWords.Of(change)}");
        }
    }

    public void Record(RecordCompared compared)
    {
        var loud = compared.Flips.Where(flip => showAll || !flip.IsQuiet).ToList();
        var (was, wouldBe) = (compared.Was?.Job.Disposition, compared.WouldBe?.Job.Disposition);
        if (loud.Count == 0 && was == wouldBe)
        {
            return;
        }

        var record = compared.Record;
        var area = record.Machine.Area is { } name ? $", {name}" : "";
        var outcome =
            was == wouldBe ? FlipWords.Of(was) : $"was {FlipWords.Of(was)}, would be {FlipWords.Of(wouldBe)}";
        screen.WriteLine();
        screen.MarkedLine(
            $"[bold]{record.Id}[/]  {record.Date:yyyy-MM-dd}  machine {record.Machine.Id}{area}: {outcome}"
        );
        if (!compared.MissingSheets.IsEmpty)
        {
            screen.TextLine(
                $"  there is no limit sheet {string.Join(", ", compared.MissingSheets)} {(was is null ? "before" : "after")}"
            );
        }

        foreach (var flip in loud)
        {
            Flip(flip);
        }

        if (compared.Flips.Length - loud.Count is > 0 and var quiet)
        {
            screen.TextLine(
                $"  and {ReportWords.Counted(quiet, "rule", "rules")} in, newly asked or no longer (--all shows them)"
            );
        }
    }

    private void Flip(Flip flip)
    {
        screen.MarkedLine(
            $"  {FlipWords.Of(flip.Subject)}  [bold]{flip.Title}[/] ({flip.Rule}): was {FlipWords.Of(flip.Was)}, would be {FlipWords.Of(flip.WouldBe)}"
        );
        screen.TextLine($"      because: {ChangeWords.Of(flip.Causes)}");
        if (flip.WouldBe is { } finding && finding.Verdict != Verdict.Met)
        {
            screen.TextLine($"      then: {finding.Statement}");
        }
    }

    public void Totals(ComparedTotals totals, FilesRead files)
    {
        screen.WriteLine();
        screen.TextLine(
            $"{totals.Changed} of {ReportWords.Counted(totals.Records, "record", "records")} would come out otherwise, {ReportWords.Counted(totals.Flips, "flip", "flips")}."
        );
        foreach (var (was, wouldBe, jobs) in totals.Jobs)
        {
            screen.TextLine(
                $"  {ReportWords.Counted(jobs, "job", "jobs")}: was {FlipWords.Of(was)}, would be {FlipWords.Of(wouldBe)}"
            );
        }

        if (totals.Flips > 0)
        {
            ByRule(totals);
            Counts("By cause", totals.ByCause.Select(one => (ChangeWords.Of(one.Key), one.Value)));
            Counts("By kind of unit", Named(totals.BySheet, "no unit"));
            Counts("By gauge", Named(totals.ByGauge, "no gauge"));
            Counts("By area", Named(totals.ByArea, "no area"));
        }

        FilesPrint.Write(screen, files);
    }

    private void ByRule(ComparedTotals totals)
    {
        screen.TextLine("By rule:");
        foreach (
            var (rule, total) in totals
                .ByRule.OrderByDescending(one => one.Value.Flips)
                .ThenBy(one => one.Key, StringComparer.Ordinal)
        )
        {
            var turns = total
                .Turns.OrderByDescending(turn => turn.Value)
                .ThenBy(turn => turn.Key.Was)
                .ThenBy(turn => turn.Key.WouldBe)
                .ThenBy(turn => turn.Key.WouldBeEffect)
                .Select(turn =>
                    $"{turn.Value} {FlipWords.Of(turn.Key.Was, turn.Key.WasEffect, turn.Key.WasLetOut)} -> {FlipWords.Of(turn.Key.WouldBe, turn.Key.WouldBeEffect, turn.Key.WouldBeLetOut)}"
                );
            screen.TextLine($"  {total.Flips}  {rule}: {string.Join(", ", turns)}");
        }
    }

    private void Counts(string title, IEnumerable<(string Name, int Count)> counts) =>
        screen.TextLine(
            $"{title}: "
                + string.Join(
                    ", ",
                    counts
                        .OrderByDescending(one => one.Count)
                        .ThenBy(one => one.Name, StringComparer.Ordinal)
                        .Select(one => $"{one.Name} {one.Count}")
                )
        );

    private static IEnumerable<(string, int)> Named(IReadOnlyDictionary<string, int> counts, string none) =>
        counts.Select(one => (one.Key == ComparedTotals.None ? none : one.Key, one.Value));
}
