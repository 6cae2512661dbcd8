namespace ServiceRules.Rules.Evaluation;

/// <summary>How a sentence begins.</summary>
public static class SentenceCase
{
    /// <summary>
    /// A text with its first letter in upper case; one that begins with an identifier, told by a digit in its first word (<c>tech-05's</c>),
    /// as it stands: identifiers are written as recorded.
    /// </summary>
    public static string Begin(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return text.Length == 0 || text.TakeWhile(one => !char.IsWhiteSpace(one)).Any(char.IsAsciiDigit)
            ? text
            : char.ToUpperInvariant(text[0]) + text[1..];
    }
}
