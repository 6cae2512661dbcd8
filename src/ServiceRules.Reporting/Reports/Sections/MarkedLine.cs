using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Reporting.Reports.Sections;

/// <summary>A line of text after the mark of an outcome.</summary>
internal static class MarkedLine
{
    public static Row Of(VerdictPrint print, ITextMeasure measure, params Span[] spans) =>
        Of(print, measure, below: null, spans);

    /// <summary>The same with a line of its own below it.</summary>
    public static Row Of(VerdictPrint print, ITextMeasure measure, Paragraph? below, params Span[] spans)
    {
        var style = spans[0].Style;
        var mark = MarkDrawing.Inline(print.Mark, style.Size, style.LineHeight, print.Ink, measure);
        return new Row(
            [
                new Column(ColumnWidth.Fixed(style.Size), mark),
                new Column(
                    ColumnWidth.Share(),
                    below is null ? new Paragraph([.. spans]) : new Stack([new Paragraph([.. spans]), below])
                ),
            ],
            style.Size * 0.45
        );
    }
}
