using System.Collections.Immutable;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Drawings;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Reports.Sections;

/// <summary>Every reading of a unit, or of the units together, as a bar against its limit.</summary>
internal static class ReadingBars
{
    private const double BarWidth = 168;

    public static IEnumerable<Block> Of(JobView job, UnitView unit) => Of(job, unit.Findings, unit);

    public static IEnumerable<Block> Of(JobView job, IEnumerable<Finding> findings, UnitView unit)
    {
        var rows = findings
            .Where(finding => !finding.Comparisons.IsEmpty)
            .OrderBy(finding => Rank(finding.Verdict))
            .SelectMany(finding => RowsOf(job, finding, unit))
            .ToImmutableArray();
        if (rows.IsEmpty)
        {
            yield break;
        }
        yield return Paragraph.Heading(3, "Readings against their limits", Palette.SubHeading);
        yield return new Table(
            [
                ColumnWidth.Share(),
                ColumnWidth.Fixed(58),
                ColumnWidth.Fixed(88),
                ColumnWidth.Fixed(BarWidth + 6),
                ColumnWidth.Fixed(44),
                ColumnWidth.Fixed(48),
            ],
            new TableRow([
                Head("rule"),
                Head("place"),
                Head("known (± expanded)"),
                Head("limits (ticks), zone that counts as in (darker)"),
                Head("chance in", Align.Right),
                Head("to limit", Align.Right),
            ]),
            rows,
            new TableStyle(3, 0.8, Palette.HairLine) { HeaderLine = Palette.Outline }
        );
    }

    private static int Rank(Verdict verdict) =>
        verdict switch
        {
            Verdict.NotMet => 0,
            Verdict.Unproven => 1,
            _ => 2,
        };

    private static IEnumerable<TableRow> RowsOf(JobView job, Finding finding, UnitView unit)
    {
        var first = true;
        foreach (var comparison in InOrder(finding, unit))
        {
            var system = unit.SystemOf(comparison);
            var print = VerdictPrint.Of(comparison.Verdict);
            yield return new TableRow([
                new Paragraph(job.TitleOf(finding), first ? Palette.TinyBold : Palette.TinyQuiet),
                job.MarkedLine(print, new Span(Placed(print.Word, comparison), Palette.Tiny)),
                new Paragraph(LengthPrint.Known(comparison, system), Palette.Tiny),
                LimitBar.Of(comparison, SameLimits(finding, comparison), system, BarWidth, job.Measure),
                new Paragraph(ChanceWords.In(comparison) ?? "", Palette.Tiny, Align.Right),
                new Paragraph(Margin(comparison, unit), Palette.Tiny, Align.Right),
            ]);
            first = false;
        }
    }

    /// <summary>Worst first; what is alike, from the left.</summary>
    private static IEnumerable<Comparison> InOrder(Finding finding, UnitView unit) =>
        finding
            .Comparisons.OrderBy(one => Rank(one.Verdict))
            .ThenBy(one => ComparedPlace.Position(one.Place, unit.Sheet)?.Millimetres);

    /// <summary>Places held against the same limits share a scale, so that the eye can compare them.</summary>
    private static List<Comparison> SameLimits(Finding finding, Comparison one) =>
        [
            .. finding.Comparisons.Where(other =>
                other.Quantity == one.Quantity
                && other.LowerLimit == one.LowerLimit
                && other.UpperLimit == one.UpperLimit
            ),
        ];

    private static string Placed(string word, Comparison comparison)
    {
        var place = ComparedPlace.Name(comparison);
        return place.Length == 0 ? word : $"{word}, {place}";
    }

    private static Paragraph Head(string text, Align align = Align.Left) =>
        new(text, Palette.TinyQuiet, align);

    private static string Margin(Comparison comparison, UnitView unit) =>
        LengthPrint.Margin(comparison, unit.SystemOf(comparison));
}
