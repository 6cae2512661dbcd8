using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Drawings;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Reports.Sections;

/// <summary>One unit in full: drawn, what is not in with what to turn, every reading as a bar, what was turned.</summary>
internal static class UnitSection
{
    public static Block Of(JobView job, UnitView unit)
    {
        var blocks = new List<Block> { new Together(new Stack([Title(job, unit), Views(job, unit)], 4)) };
        blocks.AddRange(NotIn(job, unit));
        blocks.AddRange(ReadingBars.Of(job, unit));
        blocks.Add(InSilence(job, unit));
        blocks.AddRange(
            unit.Remarks.Select(remark => new Paragraph(Remark(job, remark), Palette.SmallQuiet))
        );
        blocks.AddRange(TurnedList.Of(job, unit));
        return new Stack([.. blocks], 5);
    }

    /// <summary>A remark as a sentence.</summary>
    public static string Remark(JobView job, string remark) => RemedyText.Whole(job.Say(remark));

    private static Stack Title(JobView job, UnitView unit)
    {
        var outcome = unit.Outcome;
        var style = Palette.Heading;
        var mark = MarkDrawing.Inline(outcome.Mark, 11, style.LineHeight, outcome.Ink, job.Measure);
        var title = new Row(
            [
                new Column(ColumnWidth.Fixed(11), mark),
                new Column(
                    ColumnWidth.Share(),
                    Paragraph.Heading(2, $"Unit {unit.Work.Id.Text}: {outcome.Word}", style)
                ),
            ],
            5
        );
        return new Stack([
            new HorizontalRule(Palette.Outline),
            new Gap(3),
            title,
            new Paragraph(Identity(job, unit), Palette.SmallQuiet),
        ]);
    }

    private static string Identity(JobView job, UnitView unit)
    {
        var work = unit.Work;
        var fitted = work.Attachments.Select(ReportWords.Of).ToList();
        string?[] parts =
        [
            work.Position is { } position ? $"position {position} from the left" : null,
            unit.Sheet?.Title is { } title ? job.Say(title) : null,
            $"limit sheet {work.Sheet}",
            work.Reel is { } reel ? $"{job.Say("reel")} {reel}" : null,
            work.Bedknife is { } knife ? $"{job.Say("bedknife")} {knife}" : null,
            fitted.Count > 0 ? $"fitted: {ReportWords.Listed(fitted)}" : null,
            work.Tasks.IsEmpty
                ? null
                : $"tasks: {ReportWords.Listed([.. work.Tasks.Select(ReportWords.Of)])}",
        ];
        return string.Join(" · ", parts.OfType<string>());
    }

    private static Block Views(JobView job, UnitView unit)
    {
        if (unit.Sheet is not { } sheet)
        {
            return new Paragraph(
                $"No limit sheet {unit.Work.Sheet} at hand: the unit is not drawn.",
                Palette.Small
            );
        }
        return new Row(
            [
                new Column(ColumnWidth.Fixed(SideView.Width), SideView.Of(job, unit, sheet)),
                new Column(ColumnWidth.Fixed(FrontView.Width), FrontView.Of(job, unit, sheet), Centred: true),
            ],
            7
        );
    }

    private static IEnumerable<Block> NotIn(JobView job, UnitView unit)
    {
        var findings = unit.NotIn.OrderByDescending(finding => finding.Effect).ToList();
        if (findings.Count == 0)
        {
            yield break;
        }
        yield return Paragraph.Heading(3, "Out or not proven, and what to do", Palette.SubHeading);
        var told = new HashSet<string>(StringComparer.Ordinal);
        var contradictions = new ContradictionsTold();
        yield return new Stack(
            [
                .. findings.Select(finding =>
                    FindingBlock.Of(job, finding, VerdictPrint.Of(finding.Verdict), told, contradictions)
                ),
            ],
            2.5
        );
    }

    private static Block InSilence(JobView job, UnitView unit)
    {
        var met = unit
            .Findings.Where(finding => finding.Verdict == Verdict.Met && finding.Comparisons.IsEmpty)
            .ToList();
        return met.Count == 0
            ? new Gap(0)
            : job.MarkedLine(
                VerdictPrint.Of(Verdict.Met),
                new Span("In, not measured in lengths: ", Palette.SmallBold),
                new Span(string.Join("; ", met.Select(finding => job.Say(finding.Statement))), Palette.Small)
            );
    }
}
