using System.Collections.Immutable;

namespace ServiceRules.Reporting.Layout;

/// <summary>One layout run: the font measures, and the lines of paragraphs already broken.</summary>
internal sealed class LayoutSession(ITextMeasure measure)
{
    private readonly Dictionary<(ImmutableArray<Span>, double), ImmutableArray<TextLine>> _lines = [];

    public ImmutableArray<TextLine> Lines(ImmutableArray<Span> spans, double width)
    {
        // Immutable arrays compare by reference: keeping together and splitting ask for the same paragraph repeatedly.
        if (!_lines.TryGetValue((spans, width), out var lines))
        {
            lines = LineBreaker.Break(spans, width, measure);
            _lines.Add((spans, width), lines);
        }
        return lines;
    }

    public string Visible(string text, Face face) => VisibleText.Of(text, face, measure);
}
