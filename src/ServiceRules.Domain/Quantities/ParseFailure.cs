using System.Globalization;
using System.Text;

namespace ServiceRules.Domain.Quantities;

/// <summary>Why a text could not be read as a quantity or a time, in words for the person who wrote it.</summary>
/// <param name="Found">The text that was found, shortened when it is too long to repeat.</param>
/// <param name="Accepted">What would be accepted in its place.</param>
public sealed record ParseFailure(string Found, string Accepted)
{
    private const int LongestRepeated = 40;

    /// <summary>What is wrong with the text, as a clause that follows it: <c>has no unit</c>.</summary>
    public string Problem { get; init; } = "cannot be read";

    /// <summary>The whole sentence: the text found, what is wrong with it, and what would be accepted.</summary>
    public override string ToString() => $"`{Found}` {Problem}; accepted: {Accepted}";

    internal static ParseFailure Because(string problem, string found, string accepted) =>
        new(Shortened(found), accepted) { Problem = problem };

    private static string Shortened(string text)
    {
        if (text.Length <= LongestRepeated)
        {
            return Readable(text);
        }

        int cut = char.IsHighSurrogate(text[LongestRepeated - 1]) ? LongestRepeated - 1 : LongestRepeated;
        return Readable(text[..cut]) + "…";
    }

    // Line breaks, invisible characters and broken surrogates could forge or spoil the line that repeats them.
    private static string Readable(string text)
    {
        StringBuilder readable = new(text.Length);
        for (int at = 0; at < text.Length; at++)
        {
            if (at + 1 < text.Length && char.IsSurrogatePair(text[at], text[at + 1]))
            {
                readable.Append(text[at]).Append(text[++at]);
            }
            else if (IsVisible(text[at]))
            {
                readable.Append(text[at]);
            }
            else
            {
                readable.Append(CultureInfo.InvariantCulture, $"\\u{(int)text[at]:X4}");
            }
        }

        return readable.ToString();
    }

    private static bool IsVisible(char character) =>
        character == ' '
        || char.GetUnicodeCategory(character)
            is not (
                UnicodeCategory.Control
                or UnicodeCategory.Format
                or UnicodeCategory.Surrogate
                or UnicodeCategory.LineSeparator
                or UnicodeCategory.ParagraphSeparator
                or UnicodeCategory.SpaceSeparator
                or UnicodeCategory.PrivateUse
                or UnicodeCategory.OtherNotAssigned
            );
}
