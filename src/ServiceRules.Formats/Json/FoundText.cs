using System.Globalization;
using System.Text;

namespace ServiceRules.Formats.Json;

/// <summary>A text as a message repeats it: on one line, shortened, with what cannot be seen written as an escape.</summary>
internal static class FoundText
{
    public static string Of(string text) => Within(text, ReadLimits.FoundLength);

    /// <summary>The same, of another length.</summary>
    public static string Within(string text, int most)
    {
        StringBuilder shown = new();
        int characters = 0;
        foreach (Rune rune in text.EnumerateRunes())
        {
            if (characters == most)
            {
                return shown.Append('…').ToString();
            }

            Append(shown, rune);
            characters++;
        }

        return shown.ToString();
    }

    private static void Append(StringBuilder shown, Rune rune)
    {
        UnicodeCategory category = Rune.GetUnicodeCategory(rune);
        bool unseen =
            category
                is UnicodeCategory.Control
                    or UnicodeCategory.Format
                    or UnicodeCategory.LineSeparator
                    or UnicodeCategory.ParagraphSeparator
                    or UnicodeCategory.PrivateUse
                    or UnicodeCategory.OtherNotAssigned
            || rune == Rune.ReplacementChar;
        if (!unseen)
        {
            shown.Append(rune);
            return;
        }

        Span<char> units = stackalloc char[2];
        foreach (char unit in units[..rune.EncodeToUtf16(units)])
        {
            shown.Append(
                unit switch
                {
                    '\n' => @"\n",
                    '\r' => @"\r",
                    '\t' => @"\t",
                    _ => string.Create(CultureInfo.InvariantCulture, $"\\u{(int)unit:x4}"),
                }
            );
        }
    }
}
