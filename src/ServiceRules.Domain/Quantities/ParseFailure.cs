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
            return text;
        }

        // Cutting between the halves of a surrogate pair would leave text that no encoder accepts.
        int cut = char.IsHighSurrogate(text[LongestRepeated - 1]) ? LongestRepeated - 1 : LongestRepeated;
        return string.Concat(text.AsSpan(0, cut), "…");
    }
}
