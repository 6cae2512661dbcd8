using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Application.Assessing;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine;
using ServiceRules.Engine.Judging;
using ServiceRules.Reporting.Reports.Words;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Evaluation.Timeline;
using Spectre.Console;
using Check = ServiceRules.Rules.Model.Check;
using RecencyOf = ServiceRules.Rules.Model.RecencyOf;
using Requirement = ServiceRules.Rules.Model.Rule;

namespace ServiceRules.Cli.Printing;

/// <summary>
/// One job for a person at the bench: the outcome, then what is out or not proven and what to do about it, then what
/// is in, folded to a line. A verdict is always a word; colour only repeats it.
/// </summary>
internal sealed class BenchPrint(
    IAnsiConsole screen,
    Assessed job,
    BenchDetail detail,
    ISet<string> programmeTold
)
{
    private readonly bool showAll = detail.HasFlag(BenchDetail.All);

    private readonly bool showBudgets = detail.HasFlag(BenchDetail.Budgets);

    private readonly Dictionary<string, Requirement> rules = job
        .Book.Packs.SelectMany(pack => pack.Rules)
        .GroupBy(rule => rule.Id.Text, StringComparer.Ordinal)
        .ToDictionary(same => same.Key, same => same.Last(), StringComparer.Ordinal);

    private readonly ContradictionsTold contradictions = new();

    private readonly JobFrame frame = FrameBuilder.Build(job.Record, job.Context, job.Book);

    private ImmutableArray<WorkInterval> Works => TimelineReading.Of(frame).Works;

    // A remark that nearly every duty has is told once, with the first of them.
    private const int MostTitles = 3;

    // Two rules on one gap have one answer, told once.
    private (string Subject, string Words) lastTold;

    public void Print()
    {
        Heading();
        foreach (var unit in job.Record.Units)
        {
            UnitLine(unit);
        }

        var before = BeforeHands.Of(
            job.Assessment,
            finding => rules.GetValueOrDefault(finding.Rule),
            HandsIn()
        );
        Before(before);
        Group(
            before.Findings.IsEmpty ? "Job and safe work" : "Job and safe work, otherwise",
            finding => finding.Subject is Subject.Job && !before.Findings.Contains(finding)
        );
        Group("Units together", finding => finding.Subject is Subject.Set);
        foreach (var unit in frame.Units)
        {
            Group(
                $"Unit {unit.Work.Id}",
                finding => finding.Subject is Subject.Unit subject && subject.Id == unit.Work.Id
            );
            Unjudged(unit);
        }

        Programme();
        Cautions();
    }

    private void Unjudged(UnitFrame unit)
    {
        var unjudged = UnjudgedReadings.Of(
            job.Assessment.Findings,
            finding => rules.GetValueOrDefault(finding.Rule),
            unit
        );
        if (!unjudged.IsEmpty)
        {
            Line($"read, and judged by no rule: {ReportWords.Listed([.. unjudged.Select(ReportWords.Of)])}");
        }
    }

    private void Heading()
    {
        var record = job.Record;
        var tasks = string.Join(", ", record.Tasks.Select(ReportWords.Of));
        var (word, style) = OutcomeWord(job.Assessment.Job.Disposition);
        screen.MarkedLine(
            $"[bold]{record.Id}[/]  machine {record.Machine.Id}  {record.Date:yyyy-MM-dd}  {tasks}: [bold {style}]{word}[/]"
        );
        if (TasksOfNoUnit.Of(frame) is { IsEmpty: false } undone)
        {
            Line(
                $"no unit had {ReportWords.Listed([.. undone.Select(ReportWords.Of)])}: each is named with tasks of its own, so the job is held"
            );
            Line("do: name the task at the units on which it was done, or take it from the job");
        }

        if (job.Assessment.State == RecordState.Open)
        {
            screen.TextLine("  in progress: nobody has signed the job off, so nothing is released yet");
        }
    }

    private void UnitLine(UnitWork unit)
    {
        var outcome = job.Assessment.Units.First(one => one.Unit == unit.Id).Outcome;
        var (word, style) = OutcomeWord(outcome.Disposition);
        var place = unit.Position is { } position ? $", position {position}" : "";
        var isJobHeld =
            outcome.Disposition == Disposition.Release
            && job.Assessment.Job.Disposition is Disposition.Hold or Disposition.Stop;
        var held = isJobHeld ? ", by itself; the job is held, so it does not yet" : "";
        screen.MarkedLine($"  unit {unit.Id} ({unit.Sheet}{place}): [{style}]{word}[/]{held}");
        var known = frame.Units.First(one => one.Work.Id == unit.Id);
        if (TasksOfNoUnit.LeftOutOn(frame, known) is { IsEmpty: false } leftOut)
        {
            Line(
                $"by its own tasks {ReportWords.Listed([.. known.Tasks.Select(ReportWords.Of)])}: what the job's {ReportWords.Listed([.. leftOut.Select(ReportWords.Of)])} asks is not asked of it"
            );
        }

        if (outcome.Because.Contains(RuleEngine.NoRule))
        {
            Line("no rule judges anything of this unit on this job, so nothing shows that it may go out");
            Line("do: name the task that was done, or have a rule written for it");
        }
    }

    private void Before(BeforeHands before)
    {
        var stillOut = StillOut.Of(frame);
        var again = BackIn.Of(frame);
        foreach (var one in stillOut.Where(one => one.Barred is not null))
        {
            screen.MarkedLine(
                $"[bold]Not by {one.Person}[/]: {one.Person} {one.Barred}; somebody authorised must do this work"
            );
        }

        if (!before.Steps.IsEmpty)
        {
            screen.MarkedLine(
                before.AreIn
                    ? (FormattableString)$"[bold]Hands are in[/]: work may not go on"
                    : $"[bold]Before hands go in[/]: work may not begin yet"
            );
            Numbered(before.Steps);
        }
        else if (GoingOn.Of(job, Works) is { } now)
        {
            screen.MarkedLine(
                $"[bold]{now.Who}[/]: {now.May}{(again.Length > 0 && Works.All(work => work.Stop is not null) ? ", and hands may not go in again yet" : "")}"
            );
            foreach (var line in now.NotYet)
            {
                screen.TextLine($"  not yet: {line}");
            }
        }

        foreach (var one in again)
        {
            screen.TextLine($"  not yet: {HandsNotYet.Told(one)}");
        }

        foreach (
            var one in stillOut.Where(one => !Works.IsEmpty && one is { Barred: null, Lacks.IsEmpty: false })
        )
        {
            screen.TextLine($"  not yet: {HandsNotYet.Told(one)}");
        }

        if (!before.BeforeRun.IsEmpty)
        {
            screen.MarkedLine($"[bold]Before the reel is run[/]: it may not be run yet");
            Numbered(before.BeforeRun);
        }
    }

    private void Numbered(ImmutableArray<string> steps)
    {
        for (var index = 0; index < steps.Length; index++)
        {
            screen.TextLine(string.Create(CultureInfo.InvariantCulture, $"  {index + 1}. {steps[index]}"));
        }
    }

    private List<string> HandsIn() =>
        [
            .. Works
                .Where(work => work.Stop is null)
                .Select(work => work.Person.Text)
                .Distinct(StringComparer.Ordinal),
        ];

    private void Group(string title, Func<Finding, bool> belongs)
    {
        var findings = job
            .Assessment.Findings.Where(belongs)
            .Where(finding => finding.Verdict != Verdict.NotApplicable)
            .ToList();
        var toldAlone = job
            .Assessment.Findings.Where(belongs)
            .Where(finding =>
                finding.Verdict == Verdict.NotApplicable && finding.Notices.Any(ToldThoughMet.Is)
            )
            .ToList();
        var told = findings
            .Where(finding =>
                showAll || finding.Verdict != Verdict.Met || (showBudgets && IsMeasured(finding))
            )
            .ToList();
        if (findings.Count == 0)
        {
            if (toldAlone.Count > 0)
            {
                screen.TextLine($"{title}: nothing to judge");
                Remarks(toldAlone);
            }

            return;
        }

        if (told.Count == 0)
        {
            screen.TextLine($"{title}: all in ({ReportWords.Counted(findings.Count, "rule", "rules")})");
            Remarks(findings.Concat(toldAlone));
            return;
        }

        screen.MarkedLine($"[bold]{title}[/]");
        List<Finding> inOrder =
        [
            .. told.OrderByDescending(one => one.Effect).ThenBy(one => one.Rule, StringComparer.Ordinal),
        ];
        foreach (
            var one in showAll
                ? inOrder.Select(finding => new ToldOnce(finding, []))
                : ToldOnce.Of(inOrder, finding => rules.GetValueOrDefault(finding.Rule))
        )
        {
            Tell(one.Finding);
            if (!one.Others.IsEmpty)
            {
                Line($"leaves open as well: {string.Join("; ", one.Others.Select(TitleOf))}");
            }
        }

        var rest = findings.Count - told.Count;
        if (rest > 0)
        {
            screen.TextLine($"  in: {ReportWords.Counted(rest, "rule", "rules")}");
            Remarks(findings.Except(told).Concat(toldAlone));
        }
    }

    /// <summary>
    /// What notices of safe work leave open though the duty is met, and what is not believed of a gauge: nobody looks for it among
    /// what is in. At the bench what is in is else remarked on for who asks, but for what was read and does not count, and what
    /// harms the turf.
    /// </summary>
    private void Remarks(IEnumerable<Finding> met)
    {
        var remarks =
            from finding in met
            let isTold = rules.GetValueOrDefault(finding.Rule)?.Check
                is Check.EnergyControl
                    or Check.RequiredEvent { By: not null }
                    or Check.RecordPart { By: not null }
                    or Check.Recency { Of: RecencyOf.Instruments }
            from notice in finding.Notices
            where isTold ? !IsSilence(notice) : ToldThoughMet.Is(notice)
            group finding by notice;
        foreach (var same in remarks)
        {
            var titles = same.Select(TitleOf)
                .Distinct(StringComparer.Ordinal)
                .Order(StringComparer.Ordinal)
                .ToList();
            var more =
                titles.Count > MostTitles
                    ? FormattableString.Invariant($"; {titles.Count - MostTitles} more")
                    : "";
            Line($"note: {same.Key} ({string.Join("; ", titles.Take(MostTitles))}{more})");
        }
    }

    /// <summary>
    /// What a gauge leaves unsaid is remarked on for who asks; what register, record and trade say against one another is not.
    /// </summary>
    private static bool IsSilence(string notice) =>
        notice.StartsWith("gauge ", StringComparison.Ordinal)
        && notice.Contains(" states no ", StringComparison.Ordinal);

    /// <summary>
    /// How the site runs its programme: no part of what may go out, so a line each is enough, and once for all the jobs
    /// of one run. A finding tells its worst fault and the others beside it; each is told for itself.
    /// </summary>
    private void Programme()
    {
        var findings = job
            .Assessment.Findings.Where(finding => finding.Subject is Subject.Programme)
            .Where(finding => finding.Verdict != Verdict.NotApplicable)
            .ToList();
        var told = findings
            .Where(finding => showAll || finding.Verdict != Verdict.Met)
            .OrderBy(finding => finding.Verdict == Verdict.NotMet ? 0 : 1)
            .ThenBy(finding => finding.Rule, StringComparer.Ordinal)
            .SelectMany(finding =>
                finding.Notices.Prepend(finding.Statement).Select(fault => (finding, fault))
            )
            .Where(one => programmeTold.Add(one.fault))
            .ToList();
        if (told.Count == 0)
        {
            return;
        }

        screen.MarkedLine($"[bold]Programme, told once[/] (holds no job; for whoever looks after safety)");
        foreach (var (finding, fault) in told)
        {
            var rule = rules.GetValueOrDefault(finding.Rule);
            var (word, style) = VerdictWord(finding, rule);
            screen.MarkedLine($"  [{style}]{word}[/]  {fault}");
        }
    }

    private void Tell(Finding finding)
    {
        var rule = rules.GetValueOrDefault(finding.Rule);
        var (word, style) = VerdictWord(finding, rule);
        var effect = finding.Effect switch
        {
            Effect.Stop => ", stops",
            Effect.Hold => ", holds",
            _ => "",
        };
        screen.MarkedLine($"  [bold {style}]{word}[/]{effect}  [bold]{TitleOf(finding)}[/]");
        if (!showAll && DefectTold.Of(finding, job.Assessment, rules) is { } defect)
        {
            Line($"told above: {TitleOf(defect)}");
            return;
        }

        var (statement, isReference) = contradictions.Of(finding, TitleOf(finding));
        Line(statement);
        var system = ReadingUnits.Of(job.Record, finding);
        // The statement tells the worst place and names the others; every place with its margin is for who asks.
        foreach (var comparison in showAll || showBudgets ? finding.Comparisons : [])
        {
            Line("  " + ComparisonLine.Of(comparison, system));
        }

        foreach (var budget in showBudgets ? BudgetWords.Of(finding.Comparisons, system) : [])
        {
            Line($"  uncertainty at {budget}");
        }

        if ((showAll || showBudgets) && rule is not null && IsMeasured(finding))
        {
            Line($"decided: {DecisionWords.Of(rule.Decision)}");
        }

        foreach (var notice in contradictions.NoticesOf(finding))
        {
            Line($"note: {notice}");
        }

        if (finding.LetOut is { } letOut)
        {
            Line($"let out: {letOut}");
        }

        if (finding.Verdict is Verdict.Met or Verdict.NotApplicable)
        {
            return;
        }

        if (isReference)
        {
            Line("do: as there");
            return;
        }

        ToDo(finding, rule, system);
    }

    private static bool IsMeasured(Finding finding) =>
        finding.Comparisons.Any(comparison => comparison.Uncertainty is not null);

    private void ToDo(Finding finding, Requirement? rule, UnitSystem system)
    {
        var todo = Words(finding.Remedy, system);
        if (todo.Count == 0)
        {
            todo = [rule?.Advice ?? ""];
        }

        var words = (finding.Subject.Key, string.Join('\n', todo));
        // Only the advice that stands directly above may be pointed to.
        foreach (var step in words == lastTold ? ["as above"] : todo)
        {
            Line($"do: {step}");
        }

        lastTold = words;
    }

    private static List<string> Words(Remedy? remedy, UnitSystem system) =>
        [.. RemedyText.Of(text => text, remedy, system)];

    private void Cautions()
    {
        if (job.Assessment.Job.Disposition == Disposition.Release && !showAll)
        {
            return;
        }

        screen.TextLine(
            "Before hands go near: make safe and keep the key. A sharp reel cuts at rest: gloves, and turn it with a tool."
        );
        screen.TextLine("The unit's own manual, local codes and licensed practice come before this answer.");
    }

    private void Line(string text) => screen.TextLine("      " + text);

    private string TitleOf(Finding finding) => rules.GetValueOrDefault(finding.Rule)?.Title ?? finding.Rule;

    private static (string Word, string Style) VerdictWord(Finding finding, Requirement? rule)
    {
        var isSafeWork = finding.Subject is Subject.Job && rule?.Severity == Severity.Stop;
        return finding.Verdict switch
        {
            Verdict.Met => (isSafeWork ? "record shows" : "in", "green"),
            Verdict.NotMet => (isSafeWork ? "record does not show" : "OUT", "red"),
            Verdict.Unproven => ("NOT PROVEN", "yellow"),
            _ => ("does not apply", "grey"),
        };
    }

    private (string Word, string Style) OutcomeWord(Disposition disposition) =>
        disposition switch
        {
            Disposition.Release => ("may go out", "green"),
            Disposition.Hold => ("HOLD", "yellow"),
            _ when job.Assessment.State == RecordState.Open => ("MAKE SAFE FIRST", "red"),
            _ => ("SAFE WORK NOT SHOWN", "red"),
        };
}
