using System.Collections.Immutable;

namespace ServiceRules.Reporting.Layout;

/// <summary>Cuts spans into words. A word may run through several spans; white space folds to one space.</summary>
internal sealed class WordReader
{
    private readonly ImmutableArray<Word>.Builder _words = ImmutableArray.CreateBuilder<Word>();
    private readonly ImmutableArray<Span>.Builder _pieces = ImmutableArray.CreateBuilder<Span>();
    private WordLead _lead = WordLead.Joint;

    public static ImmutableArray<Word> Read(IEnumerable<Span> spans, ITextMeasure measure)
    {
        var reader = new WordReader();
        foreach (var span in spans)
        {
            reader.Add(VisibleText.Of(span.Content, span.Style.Face, measure), span.Style);
        }
        reader.EndWord();
        if (reader._lead == WordLead.NewLine)
        {
            reader._words.Add(new Word([], WordLead.NewLine));
        }
        return reader._words.ToImmutable();
    }

    private void Add(string text, TextStyle style)
    {
        var start = 0;
        for (var at = 0; at < text.Length; at++)
        {
            var symbol = text[at];
            if (char.IsWhiteSpace(symbol) && symbol != '\u00A0')
            {
                Take(text, start, at, style);
                start = at + 1;
                Separate(symbol, at > 0 && text[at - 1] == '\r');
            }
            else if (IsJoint(text, at))
            {
                Take(text, start, at + 1, style);
                start = at + 1;
                EndWord();
                _lead = WordLead.Joint;
            }
        }
        Take(text, start, text.Length, style);
    }

    private static bool IsJoint(string text, int at) =>
        text[at] is '-' or '/'
        && at > 0
        && char.IsLetter(text[at - 1])
        && at + 1 < text.Length
        && char.IsLetter(text[at + 1]);

    private void Separate(char symbol, bool afterCarriageReturn)
    {
        EndWord();
        if (symbol is '\n' or '\r')
        {
            if (symbol == '\n' && afterCarriageReturn)
            {
                return;
            }
            if (_lead == WordLead.NewLine)
            {
                _words.Add(new Word([], WordLead.NewLine));
            }
            _lead = WordLead.NewLine;
        }
        else if (_lead != WordLead.NewLine)
        {
            _lead = WordLead.Space;
        }
    }

    private void Take(string text, int from, int to, TextStyle style)
    {
        if (to > from)
        {
            _pieces.Add(new Span(text[from..to], style));
        }
    }

    private void EndWord()
    {
        if (_pieces.Count == 0)
        {
            return;
        }
        _words.Add(new Word(_pieces.ToImmutable(), _lead));
        _pieces.Clear();
        _lead = WordLead.Joint;
    }
}
