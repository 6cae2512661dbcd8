using System.Globalization;
using System.Text;

namespace ServiceRules.Cli.Printing;

/// <summary>
/// Text as a terminal may show it: what would command the terminal, or turn words around, is spelled out as an escape.
/// Names in certificates and logs are written by strangers.
/// </summary>
internal static class SeenText
{
    public static string Of(string text)
    {
        StringBuilder? shown = null;
        for (var at = 0; at < text.Length; )
        {
            var isWhole = Rune.TryGetRuneAt(text, at, out var rune);
            var length = isWhole ? rune.Utf16SequenceLength : 1;
            if (isWhole && !IsUnseen(rune))
            {
                shown?.Append(text, at, length);
            }
            else
            {
                shown ??= new StringBuilder(text, 0, at, text.Length + 16);
                foreach (var unit in text.AsSpan(at, length))
                {
                    shown.Append(CultureInfo.InvariantCulture, $"\\u{(int)unit:x4}");
                }
            }

            at += length;
        }

        return shown?.ToString() ?? text;
    }

    private static bool IsUnseen(Rune rune) =>
        rune.Value is not ('\n' or '\t')
        && Rune.GetUnicodeCategory(rune)
            is UnicodeCategory.Control
                or UnicodeCategory.Format
                or UnicodeCategory.LineSeparator
                or UnicodeCategory.ParagraphSeparator;
}
