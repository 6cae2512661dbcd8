using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Evidence;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Pdf;
using ServiceRules.Reporting.Reports.Wall;
using ServiceRules.Reporting.Reports.Words;
using ServiceRules.Rules.Model;

namespace ServiceRules.Reporting.Reports;

/// <summary>
/// One kind of unit on one A4 page for the workshop's wall: its limits in both systems of units, the order of work, what
/// turning voids, cautions, and what it rests on. Not signed: a help at the bench, no evidence.
/// </summary>
public static class WallSheet
{
    private const double Spacing = 5;
    private const double MarginX = 30;
    private const double MarginY = 24;
    private const int DigestLength = 23;

    /// <summary>How every title begins.</summary>
    public const string TitleStart = "Sheet for the wall: ";

    /// <summary>The finished file.</summary>
    /// <param name="sheet">The limit sheet.</param>
    /// <param name="site">Whose wall.</param>
    /// <param name="digest">Of the limit sheet, so that a sheet on a wall can be held against the file.</param>
    /// <param name="terms">How the site wants it told.</param>
    /// <param name="printedAt">The instant of printing.</param>
    /// <returns>The file, and how many pages it took: more than one only where the smallest type did not help.</returns>
    public static (byte[] Pdf, int Pages) Write(
        LimitSheet sheet,
        string site,
        ContentHash digest,
        ReportTerms terms,
        DateTimeOffset printedAt
    )
    {
        var placed = LayOut(sheet, site, digest, terms, printedAt, FontMeasure.Shipped);
        var title = new DocumentTitle(TitleOf(sheet), sheet.Title, terms.Language, printedAt);
        return (PdfReportWriter.WritePlain(placed, title), placed.Pages.Length);
    }

    /// <summary>The title that the file carries.</summary>
    public static string TitleOf(LimitSheet sheet) => TitleStart + sheet.Id.Text;

    internal static PlacedDocument LayOut(
        LimitSheet sheet,
        string site,
        ContentHash digest,
        ReportTerms terms,
        DateTimeOffset printedAt,
        ITextMeasure measure
    )
    {
        var day = printedAt.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
        var foot =
            $"limit sheet {sheet.Id}, {digest.ToString()[..DigestLength]}…; printed {day}. A later print replaces this one; what judges is the rules folder.";
        PlacedDocument? placed = null;
        foreach (var scale in WallType.Scales)
        {
            var type = new WallType(scale);
            placed = Pagination.LayOut(
                Content(sheet, type, terms, measure),
                Design(sheet, site, foot, type),
                measure
            );
            if (placed.Pages.Length == 1)
            {
                break;
            }
        }

        return placed!;
    }

    private static PageDesign Design(LimitSheet sheet, string site, string foot, WallType type) =>
        new(
            PageDesign.A4Width,
            PageDesign.A4Height,
            MarginX,
            MarginY,
            _ => new Row([
                new Column(ColumnWidth.Share(), new Paragraph(site, type.Quiet)),
                new Column(ColumnWidth.Share(), new Paragraph(sheet.Id.Text, type.Quiet, Align.Right)),
            ]),
            page => new Stack(
                [
                    new HorizontalRule(Palette.HairLine),
                    new Row([
                        new Column(ColumnWidth.Share(), new Paragraph(foot, Palette.TinyQuiet)),
                        new Column(
                            ColumnWidth.Fixed(60),
                            new Paragraph(
                                $"page {page.Number} of {page.Count}",
                                Palette.TinyQuiet,
                                Align.Right
                            )
                        ),
                    ]),
                ],
                2
            )
        )
        {
            FurnitureGap = 4,
        };

    private static Stack Content(LimitSheet sheet, WallType type, ReportTerms terms, ITextMeasure measure)
    {
        ImmutableArray<Basis> grounds =
        [
            .. sheet.Quantities.Select(limit => limit.Basis).Append(sheet.Basis).Distinct(),
        ];
        return new Stack(
            [
                Paragraph.Heading(1, Say(sheet.Title, terms), type.Title),
                Cautions(sheet, type, terms, measure),
                Paragraph.Heading(2, "Limits", type.Heading),
                WallLimits.Of(sheet, grounds, terms, type),
                new Paragraph(Legend(sheet), type.Quiet),
                .. Order(sheet, type, terms),
                .. Turning(sheet, type, terms),
                Paragraph.Heading(2, "What it rests on", type.Heading),
                new Paragraph(
                    string.Join("  ", grounds.Select((basis, at) => $"{at + 1}: {BasisWords.Of(basis)}.")),
                    type.Small
                ),
            ],
            Spacing * type.Scale
        );
    }

    private static Frame Cautions(LimitSheet sheet, WallType type, ReportTerms terms, ITextMeasure measure)
    {
        const string First =
            "Local codes, the unit's own manual and licensed practice come before this sheet.";
        var told = sheet
            .Cautions.Where(caution => !caution.Contains("before this sheet", StringComparison.Ordinal))
            .Append(First)
            .Select(caution => Say(caution, terms));
        var side = 16 * type.Scale;
        return new Frame(
            new Row(
                [
                    new Column(
                        ColumnWidth.Fixed(side),
                        MarkDrawing.Inline(Mark.Caution, side, side, Palette.Ink, measure)
                    ),
                    new Column(ColumnWidth.Share(), new Paragraph(string.Join(" ", told), type.Bold)),
                ],
                7
            ),
            new FrameStyle(6, 4) { Outline = new Stroke(Palette.Ink, 0.9) }
        );
    }

    private static string Legend(LimitSheet sheet) =>
        "Bold: the figure that governs; a reading is held against the figure of its own system of units. In is what the gauge "
        + "can prove: a reading nearer to a limit than the gauge's uncertainty is not proven."
        + (
            WallLimits.HasCarried(sheet)
                ? " ≈: the sheet prints one figure only; this one is worked out and rounded to the safe side."
                : ""
        );

    private static IEnumerable<Block> Order(LimitSheet sheet, WallType type, ReportTerms terms)
    {
        if (sheet.Procedure.IsEmpty)
        {
            yield break;
        }

        yield return Paragraph.Heading(2, "Order of work", type.Heading);
        yield return new Stack(
            [
                .. sheet.Procedure.Select(
                    Block (step, at) =>
                        new Row([
                            new Column(
                                ColumnWidth.Fixed(18 * type.Scale),
                                new Paragraph($"{at + 1}", type.Bold)
                            ),
                            new Column(ColumnWidth.Share(), new Paragraph(Say(step, terms), type.Body)),
                        ])
                ),
            ],
            1
        );
    }

    private static IEnumerable<Block> Turning(LimitSheet sheet, WallType type, ReportTerms terms)
    {
        if (sheet.Adjusters.IsEmpty)
        {
            yield break;
        }

        yield return Paragraph.Heading(2, "What turning voids", type.Heading);
        yield return WallTurning.Of(sheet, terms, type);
    }

    private static string Say(string text, ReportTerms terms) => TradeVocabulary.Say(text, terms.Trade);
}
