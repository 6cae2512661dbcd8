using System.Collections.Immutable;
using System.Globalization;

namespace ServiceRules.Reporting.Layout;

/// <summary>
/// Breaks spans into lines of a given width: first fit by word; a word wider than a whole line is split between
/// characters. No character is lost, whatever the width.
/// </summary>
internal sealed class LineBreaker
{
    private readonly ITextMeasure _measure;
    private readonly double _width;
    private readonly TextStyle _fallback;
    private readonly ImmutableArray<TextLine>.Builder _lines = ImmutableArray.CreateBuilder<TextLine>();
    private readonly List<TextRun> _runs = [];
    private double _at;

    private LineBreaker(ITextMeasure measure, double width, TextStyle fallback)
    {
        _measure = measure;
        _width = width;
        _fallback = fallback;
    }

    public static ImmutableArray<TextLine> Break(
        ImmutableArray<Span> spans,
        double width,
        ITextMeasure measure
    )
    {
        if (spans.IsEmpty)
        {
            return [];
        }
        var breaker = new LineBreaker(measure, width, spans[0].Style);
        foreach (var word in WordReader.Read(spans, measure))
        {
            breaker.Add(word);
        }
        breaker.EndLine();
        return breaker._lines.ToImmutable();
    }

    // A hair of tolerance: a cell made exactly as wide as its text must not break it.
    private bool Fits(double more) => _at + more <= _width + 0.001;

    private void Add(Word word)
    {
        if (word.Lead == WordLead.NewLine)
        {
            EndLine(spaced: true);
        }
        var width = word.Pieces.Sum(piece => WidthOf(piece.Content, piece.Style));
        var space = word.Lead == WordLead.Space && _runs.Count > 0 ? SpaceWidth() : 0;
        if (Fits(space + width))
        {
            Put(word, space > 0);
            return;
        }
        if (_runs.Count > 0)
        {
            EndLine(spaced: word.Lead == WordLead.Space);
        }
        if (Fits(width))
        {
            Put(word, false);
        }
        else
        {
            Split(word);
        }
    }

    private void Put(Word word, bool spaced)
    {
        if (spaced)
        {
            Append(" ", _runs[^1].Style);
        }
        foreach (var piece in word.Pieces)
        {
            Append(piece.Content, piece.Style);
        }
    }

    private void Split(Word word)
    {
        foreach (var piece in word.Pieces)
        {
            var elements = StringInfo.GetTextElementEnumerator(piece.Content);
            while (elements.MoveNext())
            {
                var element = elements.GetTextElement();
                if (_runs.Count > 0 && !Fits(WidthOf(element, piece.Style)))
                {
                    EndLine();
                }
                Append(element, piece.Style);
            }
        }
    }

    private void Append(string content, TextStyle style)
    {
        var width = WidthOf(content, style);
        if (_runs.Count > 0 && _runs[^1].Style == style)
        {
            var last = _runs[^1];
            _runs[^1] = last with { Content = last.Content + content, Width = last.Width + width };
        }
        else
        {
            _runs.Add(new TextRun(content, style, _at, width));
        }
        _at += width;
    }

    /// <param name="spaced">
    /// A space stands where the line ends. It takes no room and is drawn all the same: who hears or copies the text would
    /// otherwise get the two words as one.
    /// </param>
    private void EndLine(bool spaced = false)
    {
        if (spaced && _runs.Count > 0)
        {
            _runs[^1] = _runs[^1] with { Content = _runs[^1].Content + " " };
        }
        var styles = _runs.Count > 0 ? _runs.Select(run => run.Style) : [_fallback];
        double height = 0;
        double ascent = 0;
        double descent = 0;
        foreach (var style in styles)
        {
            height = Math.Max(height, style.LineHeight);
            ascent = Math.Max(ascent, _measure.Ascent(style.Face, style.Size));
            descent = Math.Max(descent, _measure.Descent(style.Face, style.Size));
        }
        _lines.Add(new TextLine([.. _runs], _at, height, ((height - ascent - descent) / 2) + ascent));
        _runs.Clear();
        _at = 0;
    }

    private double SpaceWidth() => WidthOf(" ", _runs[^1].Style);

    private double WidthOf(string text, TextStyle style) => _measure.Width(text, style.Face, style.Size);
}
