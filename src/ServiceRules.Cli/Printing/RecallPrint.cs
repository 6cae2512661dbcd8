using System.Globalization;
using ServiceRules.Application.Recall;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Reports.Words;
using Spectre.Console;

namespace ServiceRules.Cli.Printing;

/// <summary>A recall for the shop lead: what went out and should not have, first; then what else changes; then totals.</summary>
internal sealed class RecallPrint(IAnsiConsole screen, Recalled recalled, bool showAll)
{
    public void Print()
    {
        Heading();
        Jobs(
            "Went out, and would not have",
            record => record.Release == RecallAnswer.Changes,
            RecallAnswer.Changes
        );
        Jobs(
            "Went out, and cannot be told: in without the error, not with it",
            record => record.Release == RecallAnswer.CannotBeTold,
            RecallAnswer.CannotBeTold
        );
        Jobs(
            "No release hangs on it, but a verdict does",
            record =>
                record.Release == RecallAnswer.Stands
                && record.Verdicts.Any(verdict => verdict.Answer != RecallAnswer.Stands),
            RecallAnswer.CannotBeTold
        );
        if (showAll)
        {
            Jobs(
                "Stands",
                record => record.Verdicts.All(verdict => verdict.Answer == RecallAnswer.Stands),
                RecallAnswer.Stands
            );
        }

        Again();
        Totals();
    }

    private void Heading()
    {
        var found = recalled.Found;
        screen.MarkedLine(
            $"[bold]{found.Instrument}[/] ({ReportWords.Of(recalled.Kind!.Value)}): {Wrong()}{Doubt()}{Since()}"
        );
        var records = recalled.Records;
        if (records.IsEmpty)
        {
            screen.TextLine("  It was not used in that time.");
            return;
        }

        var counted = ReportWords.Counted(records.Length, "record names", "records name");
        screen.TextLine($"  {counted} it, {Day(records[0].Record)} to {Day(records[^1].Record)}.");
        if (found.From is null)
        {
            OnTheDays();
        }
    }

    private void OnTheDays()
    {
        var (absent, shown, unknown) = (
            Count(ErrorOnTheDay.Absent),
            Count(ErrorOnTheDay.InFull),
            Count(ErrorOnTheDay.NotKnown)
        );
        if (absent > 0)
        {
            screen.TextLine(
                $"  In {absent} its own zero check came out right that day: the error was not there yet, or no longer."
            );
        }

        if (shown > 0)
        {
            screen.TextLine($"  In {shown} its own zero check shows the error: judged with all of it.");
        }

        if (unknown > 0)
        {
            screen.TextLine(
                $"  In {unknown} nothing says whether it was there: judged without it, with half and with all of it."
            );
        }

        if (absent > 0)
        {
            screen.TextLine(
                "  If the zero checks cannot be trusted (a wrong setting piece, a bent bar), say with --from since when it was wrong."
            );
        }
    }

    private int Count(ErrorOnTheDay onTheDay) =>
        recalled.Records.Count(record => record.OnTheDay == onTheDay && record.Readings > 0);

    private void Jobs(string title, Func<RecalledRecord, bool> belongs, RecallAnswer least)
    {
        var jobs = recalled.Records.Where(belongs).ToList();
        if (jobs.Count == 0)
        {
            return;
        }

        screen.WriteLine();
        screen.MarkedLine($"[bold]{title}: {jobs.Count}[/]");
        foreach (var job in jobs)
        {
            Job(job, least);
        }
    }

    private void Job(RecalledRecord job, RecallAnswer least)
    {
        var area = job.Record.Machine.Area is { } name ? $", {name}" : "";
        var change =
            job.Was.Disposition == job.WouldBe.Disposition
                ? Word(job.Was.Disposition)
                : $"was {Word(job.Was.Disposition)}, would be {Word(job.WouldBe.Disposition)}";
        screen.MarkedLine(
            $"  [bold]{job.Record.Id}[/]  {Day(job.Record)}  machine {job.Record.Machine.Id}{area}: {change}"
        );
        foreach (
            var verdict in job.Verdicts.Where(verdict =>
                showAll || verdict.Answer >= least || verdict.Answer != RecallAnswer.Stands
            )
        )
        {
            Verdict(job, verdict);
        }
    }

    private void Verdict(RecalledRecord job, RecalledVerdict verdict)
    {
        var subject = verdict.Was.Subject switch
        {
            Subject.Unit unit => $"unit {unit.Id}",
            Subject.Set => "units together",
            Subject.Programme => "programme",
            _ => "job",
        };
        var title =
            job.Book.Packs.SelectMany(pack => pack.Rules)
                .LastOrDefault(rule => rule.Id.Text == verdict.Was.Rule)
                ?.Title
            ?? verdict.Was.Rule;
        var told = verdict.Answer switch
        {
            RecallAnswer.Stands => $"{Word(verdict.Was)}, stands",
            RecallAnswer.CannotBeTold =>
                $"{Word(verdict.Was)} without the error, {Word(verdict.WouldBe)} with it",
            _ => $"was {Word(verdict.Was)}, would be {Word(verdict.WouldBe)}",
        };
        screen.MarkedLine($"    {subject}  [bold]{title}[/]: {told}");
        if (verdict.Answer != RecallAnswer.Stands)
        {
            screen.TextLine($"        {verdict.WouldBe.Statement}");
        }
    }

    /// <summary>What to do: the units behind the releases that do not stand, each once, with its last day.</summary>
    private void Again()
    {
        var units = recalled
            .InDoubt.SelectMany(job =>
                job.Verdicts.Where(verdict => verdict.Answer != RecallAnswer.Stands)
                    .SelectMany(verdict => UnitsOf(job, verdict))
                    .Select(unit => (Unit: unit, job.Record.Machine.Id.Text, job.Record.Date))
            )
            .GroupBy(one => (one.Text, one.Unit))
            .OrderBy(group => group.Key.Text, StringComparer.Ordinal)
            .ThenBy(group => group.Key.Unit, StringComparer.Ordinal)
            .Select(group =>
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{group.Key.Unit} ({group.Key.Text}, {group.Max(one => one.Date):yyyy-MM-dd})"
                )
            )
            .ToList();
        if (units.Count > 0)
        {
            screen.WriteLine();
            screen.TextLine(
                $"do: read again with another gauge, unless that was done since: {string.Join(", ", units)}"
            );
        }
    }

    private static IEnumerable<string> UnitsOf(RecalledRecord job, RecalledVerdict verdict) =>
        verdict.Was.Subject is Subject.Unit unit
            ? [unit.Id.Text]
            : job.Record.Units.Select(one => one.Id.Text);

    private void Totals()
    {
        var released = recalled.Records.Count(record => record.Was.Disposition == Disposition.Release);
        var (changed, untold) = (Released(RecallAnswer.Changes), Released(RecallAnswer.CannotBeTold));
        screen.WriteLine();
        screen.TextLine(
            $"Verdicts that rest on it: {Verdicts(RecallAnswer.Stands)} stand, {Verdicts(RecallAnswer.Changes)} change, {Verdicts(RecallAnswer.CannotBeTold)} cannot be told."
        );
        screen.TextLine(
            $"Jobs that went out: {released - changed - untold} stand, {changed} would not have gone out, {untold} cannot be told."
        );
        if (recalled.OutsideTheTime > 0)
        {
            screen.TextLine(
                $"Outside the stated time it was used in {ReportWords.Counted(recalled.OutsideTheTime, "more record", "more records")}, not looked at."
            );
        }

        FilesPrint.Write(screen, recalled.Files);
    }

    private int Released(RecallAnswer answer) => recalled.Records.Count(record => record.Release == answer);

    private int Verdicts(RecallAnswer answer) => recalled.Records.Sum(record => record.With(answer).Count());

    private string Wrong()
    {
        var error = recalled.Found.Error;
        var size = error.Value < Length.Zero ? error.ToString()[1..] : error.ToString();
        var isMarked = recalled.Kind is InstrumentKind.FeelerGauge or InstrumentKind.FixedSizePiece;
        var way = (isMarked, error.Value > Length.Zero) switch
        {
            (true, true) => "smaller than marked",
            (true, false) => "larger than marked",
            (false, true) => "high",
            (false, false) => "low",
        };
        var leaf = recalled.Found.Leaf is { } one ? $"its leaf of {one} " : "";
        return isMarked ? $"{leaf}found {size} {way}" : $"found to read {size} {way}";
    }

    private string Doubt() => recalled.Found.Uncertainty is { } doubt ? $" (± {doubt})" : "";

    private string Since()
    {
        var found = recalled.Found;
        return (found.From, found.Until) switch
        {
            ({ } from, { } until) => string.Create(
                CultureInfo.InvariantCulture,
                $", from {from:yyyy-MM-dd} until {until:yyyy-MM-dd}"
            ),
            ({ } from, null) => string.Create(CultureInfo.InvariantCulture, $", from {from:yyyy-MM-dd}"),
            (null, { } until) => string.Create(
                CultureInfo.InvariantCulture,
                $", since when is not known, until {until:yyyy-MM-dd}"
            ),
            _ => ", since when is not known",
        };
    }

    private static string Day(ServiceRecord record) =>
        record.Date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static string Word(Finding finding)
    {
        var word = finding.Verdict switch
        {
            Domain.Verdicts.Verdict.Met => "in",
            Domain.Verdicts.Verdict.NotMet => "OUT",
            Domain.Verdicts.Verdict.Unproven => "NOT PROVEN",
            _ => "does not apply",
        };
        return finding.LetOut is null ? word : $"{word} and let out";
    }

    private static string Word(Disposition disposition) =>
        disposition switch
        {
            Disposition.Release => "may go out",
            Disposition.Hold => "HOLD",
            _ => "STOP",
        };
}
