using System.Collections.Immutable;
using ServiceRules.Evidence;
using ServiceRules.Reporting.Layout;

namespace ServiceRules.Reporting.Reports;

/// <summary>The page that all reports share: paper, margins, running head and foot.</summary>
internal static class ReportPages
{
    private const double MarginX = 34;
    private const double MarginY = 20;
    private const int DigestLength = 23;

    /// <summary>Points across the text.</summary>
    public const double TextWidth = PageDesign.A4Width - (2 * MarginX);

    /// <param name="title">What the report is about, at the left of the head.</param>
    /// <param name="site">Whose it is, at the right.</param>
    /// <param name="rests">What it rests on, at the left of the foot.</param>
    /// <param name="pagesMax">More pages than these are not drawn.</param>
    public static PageDesign Design(string title, string site, string rests, int pagesMax) =>
        new(
            PageDesign.A4Width,
            PageDesign.A4Height,
            MarginX,
            MarginY,
            _ => Head(title, site),
            page => Foot(rests, page)
        )
        {
            FurnitureGap = 5,
            PagesMax = pagesMax,
        };

    /// <summary>The beginning of the digest of a document, enough to tell two pages of different reports apart.</summary>
    public static string Digest(string what, CanonicalDocument document) =>
        $"{what} {document.Hash.ToString()[..DigestLength]}…";

    private static Stack Head(string title, string site)
    {
        ImmutableArray<Column> columns =
        [
            new(ColumnWidth.Share(), new Paragraph(title, Palette.SmallBold)),
            new(ColumnWidth.Share(), new Paragraph(site, Palette.SmallQuiet, Align.Right)),
        ];
        return new Stack([new Row(columns), new HorizontalRule(Palette.HairLine)], 2);
    }

    private static Stack Foot(string rests, PageNumber page)
    {
        ImmutableArray<Column> columns =
        [
            new(ColumnWidth.Share(), new Paragraph(rests, Palette.TinyQuiet)),
            new(
                ColumnWidth.Fixed(90),
                new Paragraph($"page {page.Number} of {page.Count}", Palette.TinyQuiet, Align.Right)
            ),
        ];
        return new Stack([new HorizontalRule(Palette.HairLine), new Row(columns)], 2);
    }
}
