using ServiceRules.Reporting.Layout;

namespace ServiceRules.Reporting.Reports.Sections;

/// <summary>Which texts are cited, and what comes before all of this.</summary>
internal static class PrecedenceSection
{
    public const string First =
        "Local codes, the unit's own manual and licensed practice come before this report. It tells what the record "
        + "shows and does not show; it does not say that anyone complies with a law.";

    private const string NoText =
        "The site names no jurisdiction, so no text is cited: local codes come first.";

    /// <param name="texts">Titles of the texts cited, and what each says comes before it.</param>
    public static Together Of(
        IReadOnlyCollection<(string Title, string? Precedence)> texts,
        ITextMeasure measure
    )
    {
        var told =
            texts.Count == 0
                ? NoText
                : string.Join(
                    " ",
                    texts.Select(text =>
                        text.Precedence is { } before
                            ? $"Cited: {text.Title}. {before}"
                            : $"Cited: {text.Title}."
                    )
                );
        var mark = MarkDrawing.Inline(Mark.Caution, 11, 11, Palette.Ink, measure);
        return new Together(
            new Frame(
                new Row(
                    [
                        new Column(ColumnWidth.Fixed(11), mark),
                        new Column(
                            ColumnWidth.Share(),
                            new Paragraph([
                                new Span(told + " ", Palette.SmallBold),
                                new Span(First, Palette.Small),
                            ])
                        ),
                    ],
                    6
                ),
                new FrameStyle(5, 3) { Outline = new Stroke(Palette.Ink, 0.6) }
            )
        );
    }
}
