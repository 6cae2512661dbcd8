using System.Globalization;
using System.Text;

namespace ServiceRules.Cli.Printing;

/// <summary>
/// Text as a terminal may show it: what would command the terminal, or turn words around, is spelled out as an escape.
/// Names in certificates and logs are written by strangers.
/// </summary>
internal static class SeenText
{
    /// <summary>Of several lines that are meant to be such.</summary>
    public static string Of(string text) => Of(text, IsUnseen);

    /// <summary>Of one line: a break in it would let what follows pass for a line of ours.</summary>
    public static string OneLine(string text) => Of(text, rune => rune.Value is '\n' || IsUnseen(rune));

    private static string Of(string text, Func<Rune, bool> isUnseen)
    {
        StringBuilder? shown = null;
        for (var at = 0; at < text.Length; )
        {
            var isWhole = Rune.TryGetRuneAt(text, at, out var rune);
            var length = isWhole ? rune.Utf16SequenceLength : 1;
            if (isWhole && !isUnseen(rune))
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
