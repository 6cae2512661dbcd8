using System.Globalization;
using System.Text;

namespace ServiceRules.Application.Importing;

/// <summary>What stands in a cell, as a message repeats it: on one line, shortened, and all of it to be seen.</summary>
internal static class CellText
{
    private const int Most = 60;

    public static string Shown(string text)
    {
        var shown = new StringBuilder();
        var count = 0;
        foreach (var rune in text.EnumerateRunes())
        {
            if (count++ == Most)
            {
                return shown.Append('…').ToString();
            }

            if (IsSeen(rune))
            {
                shown.Append(rune);
            }
            else
            {
                shown.Append(CultureInfo.InvariantCulture, $"\\u{{{rune.Value:x}}}");
            }
        }

        return shown.ToString();
    }

    private static bool IsSeen(Rune rune) =>
        Rune.GetUnicodeCategory(rune)
            is not (
                UnicodeCategory.Control
                or UnicodeCategory.Format
                or UnicodeCategory.LineSeparator
                or UnicodeCategory.ParagraphSeparator
                or UnicodeCategory.PrivateUse
                or UnicodeCategory.OtherNotAssigned
            );
}
