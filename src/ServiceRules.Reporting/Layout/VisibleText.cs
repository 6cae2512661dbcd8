using System.Globalization;
using System.Text;

namespace ServiceRules.Reporting.Layout;

/// <summary>
/// Text as it can be printed: white space kept, and every character the face cannot show, or that would be invisible
/// or reorder its neighbours, spelled out as <c>[U+1F600]</c>. Nothing is dropped.
/// </summary>
public static class VisibleText
{
    public static string Of(string text, Face face, ITextMeasure measure)
    {
        StringBuilder? changed = null;
        for (var at = 0; at < text.Length; )
        {
            var whole = Rune.TryGetRuneAt(text, at, out var rune);
            var length = whole ? rune.Utf16SequenceLength : 1;
            if (whole && IsPrintable(rune, face, measure))
            {
                changed?.Append(text, at, length);
            }
            else
            {
                changed ??= new StringBuilder(text, 0, at, text.Length + 16);
                var value = whole ? rune.Value : text[at];
                changed.Append(CultureInfo.InvariantCulture, $"[U+{value:X4}]");
            }
            at += length;
        }
        return changed?.ToString() ?? text;
    }

    private static bool IsPrintable(Rune rune, Face face, ITextMeasure measure)
    {
        if (rune.Value is '\n' or '\r' or '\t')
        {
            return true;
        }
        return Rune.GetUnicodeCategory(rune) switch
        {
            UnicodeCategory.Control
            or UnicodeCategory.Format
            or UnicodeCategory.LineSeparator
            or UnicodeCategory.ParagraphSeparator
            or UnicodeCategory.PrivateUse
            or UnicodeCategory.OtherNotAssigned => false,
            UnicodeCategory.SpaceSeparator => rune.Value is ' ' or 0xA0 || measure.Covers(rune, face),
            _ => measure.Covers(rune, face),
        };
    }
}
