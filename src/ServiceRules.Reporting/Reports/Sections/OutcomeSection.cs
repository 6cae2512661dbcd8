using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Reports.Sections;

/// <summary>The first thing read: may it go out, and if not, why.</summary>
internal static class OutcomeSection
{
    /// <summary>Reasons told at the top; the rest stand with their units.</summary>
    private const int ReasonsMax = 10;

    /// <summary>A sheet of quick checks must stay one page.</summary>
    private const int BriefReasonsMax = 5;

    public static Block Of(JobView job)
    {
        var outcome = job.Outcome;
        var style = Palette.Outcome with { Ink = outcome.Ink, Size = job.IsBrief ? 16 : 20 };
        var mark = MarkDrawing.Inline(
            outcome.Mark,
            style.Size - 1,
            style.LineHeight,
            outcome.Ink,
            job.Measure
        );
        var title = new Row(
            [
                new Column(ColumnWidth.Fixed(style.Size - 1), mark),
                new Column(
                    ColumnWidth.Share(),
                    Paragraph.Heading(1, ReportWords.Sentence(outcome.Word), style)
                ),
            ],
            7
        );
        var body = new Stack(
            [title, new Paragraph(Summary(job), Palette.BodyBold), .. Reasons(job), .. LetOut(job)],
            2
        );
        return new Frame(
            body,
            new FrameStyle(9, 5)
            {
                Fill = Palette.Ground,
                Bar = outcome.Ink,
                BarWidth = 4,
            }
        );
    }

    private static string Summary(JobView job)
    {
        var held = job.Units.Count(unit => job.DispositionOf(unit.Work.Id) != Disposition.Release);
        var units = job.Units.Length;
        var state = job.Assessment.State == RecordState.Open ? "The job is still open. " : "";
        var told = held switch
        {
            0 when job.Assessment.Job.Disposition != Disposition.Release => units == 1
                ? "The unit by itself may go out; the job as a whole is kept in."
                : "Each unit by itself may go out; the job as a whole is kept in.",
            0 => units == 1 ? "The unit may go out." : $"All {units} units may go out.",
            _ when units == 1 => "The unit is kept in.",
            _ when held == units => $"All {units} units are kept in.",
            _ => string.Create(
                CultureInfo.InvariantCulture,
                $"{held} of {units} units {(held == 1 ? "is" : "are")} kept in; {units - held} may go out."
            ),
        };
        return state + told + NotJudged(job) + NotDone(job);
    }

    private static string NotJudged(JobView job)
    {
        var units = job
            .Assessment.Units.Where(unit => unit.Outcome.Because.Contains(RuleEngine.NoRule))
            .Select(unit => unit.Unit.Text)
            .ToList();
        return units.Count > 0
                ? $" No rule judges anything of {string.Join(", ", units)} on this job, so nothing shows that it may go out."
            : job.Assessment.Job.Because.Contains(RuleEngine.NoRule) ? " No rule judges anything of this job."
            : "";
    }

    private static string NotDone(JobView job) =>
        job.Assessment.Job.Because.Contains(RuleEngine.TaskOfNoUnit)
            ? " The job is called by a task that no unit had: each is named with tasks of its own."
            : "";

    private static ImmutableArray<Block> Reasons(JobView job) =>
        Bounded(job, job.IsBrief ? BySubject(job) : ByStatement(job), "reason", "reasons");

    private static ImmutableArray<Block> Bounded(JobView job, List<Block> lines, string one, string many)
    {
        var most = job.IsBrief ? BriefReasonsMax : ReasonsMax;
        if (lines.Count <= most)
        {
            return [.. lines];
        }
        var more = ReportWords.Counted(lines.Count - most, one, many);
        return [.. lines.Take(most), new Paragraph($"and {more} more, told below", Palette.SmallQuiet)];
    }

    /// <summary>What goes out although it is not in: by whose word, and why; the same word is told once.</summary>
    private static ImmutableArray<Block> LetOut(JobView job) =>
        Bounded(
            job,
            [
                .. job
                    .Assessment.Findings.Where(finding => finding.LetOut is not null)
                    .GroupBy(finding => finding.LetOut)
                    .Select(same => new Paragraph([
                        new Span("Let out: ", Palette.SmallBold),
                        new Span($"{Names(job, same)}: {same.Key}", Palette.Small),
                    ])),
            ],
            "let out",
            "let out"
        );

    private static string Names(JobView job, IEnumerable<Finding> findings) =>
        string.Join(
            "; ",
            findings.Select(one => $"{SubjectName(one.Subject)}, {job.TitleOf(one)}, {PrintOf(one).Word}")
        );

    /// <summary>A defect of a unit that keeps the job in is told of the job alone, with the unit that has it.</summary>
    private static IEnumerable<Finding> Keeping(JobView job) =>
        job.Keeping.Where(finding => job.DefectTold(finding) is null);

    /// <summary>In full; the same said of several units is said once.</summary>
    private static List<Block> ByStatement(JobView job) =>
        [
            .. Keeping(job)
                .GroupBy(finding => (finding.Rule, finding.Statement, finding.Verdict))
                .Select(same =>
                    Line(
                        job,
                        [.. same],
                        string.Join(", ", same.Select(one => SubjectName(one.Subject))),
                        job.Say(same.First().Statement)
                    )
                ),
        ];

    /// <summary>Of units only which rule and how: the statements stand in the line of the unit.</summary>
    private static List<Block> BySubject(JobView job) =>
        [
            .. Keeping(job)
                .GroupBy(finding => finding.Subject)
                .Select(own =>
                    Line(
                        job,
                        [.. own],
                        SubjectName(own.Key),
                        own.Key is Subject.Job
                            ? string.Join(" ", own.Select(one => RemedyText.Whole(job.Say(one.Statement))))
                            : string.Join("; ", own.Select(one => $"{job.TitleOf(one)}, {PrintOf(one).Word}"))
                    )
                ),
        ];

    private static VerdictPrint PrintOf(Finding finding) =>
        finding.Subject is Subject.Job
            ? VerdictPrint.OfSafeWork(finding.Verdict)
            : VerdictPrint.Of(finding.Verdict);

    private static Row Line(JobView job, ImmutableArray<Finding> findings, string who, string told)
    {
        var worst = findings.MinBy(finding => finding.Verdict == Verdict.NotMet ? 0 : 1)!;
        var print = findings.Any(finding => finding.Effect == Effect.Stop)
            ? PrintOf(worst) with
            {
                Mark = Mark.Stop,
                Ink = Palette.Stop,
            }
            : PrintOf(worst);
        return job.MarkedLine(print, new Span($"{who}: ", Palette.SmallBold), new Span(told, Palette.Small));
    }

    private static string SubjectName(Subject subject) =>
        subject switch
        {
            Subject.Unit unit => unit.Id.Text,
            Subject.Set => "Units together",
            Subject.Programme => "Programme",
            _ => "Job",
        };
}
