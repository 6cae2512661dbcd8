namespace ServiceRules.Host.Problems;

/// <summary>What somebody sent, no longer than is of use: an answer must not grow with it.</summary>
internal static class Shortened
{
    public static string To(string text, int most) => text.Length <= most ? text : text[..most] + "…";
}
