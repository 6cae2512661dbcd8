using ServiceRules.Reporting.Layout;

namespace ServiceRules.Reporting.Reports.Sections;

/// <summary>Cautions of the sheets concerned, and what comes before this report.</summary>
internal static class CautionSection
{
    public static Block Of(JobView job)
    {
        var cautions = job
            .Units.Select(unit => unit.Sheet)
            .OfType<Rules.Model.LimitSheet>()
            .DistinctBy(sheet => sheet.Id)
            .SelectMany(sheet => sheet.Cautions)
            .Prepend(PrecedenceSection.First)
            .Distinct(StringComparer.Ordinal)
            .ToList();
        var mark = MarkDrawing.Inline(Mark.Caution, 11, 11, Palette.Ink, job.Measure);
        return new Frame(
            new Row(
                [
                    new Column(ColumnWidth.Fixed(11), mark),
                    new Column(
                        ColumnWidth.Share(),
                        new Paragraph(job.Say(string.Join(" ", cautions)), Palette.Tiny)
                    ),
                ],
                6
            ),
            new FrameStyle(5, 3) { Outline = new Stroke(Palette.Ink, 0.6) }
        );
    }
}
