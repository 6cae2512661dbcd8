namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Names that people write by hand: case, blanks, hyphens and underscores tell none apart.</summary>
internal static class Names
{
    /// <summary>Whether two are the same name.</summary>
    public static bool AreAlike(string one, string other) =>
        string.Equals(Plain(one), Plain(other), StringComparison.Ordinal);

    private static string Plain(string name) =>
        string.Concat(name.Where(char.IsLetterOrDigit).Select(char.ToLowerInvariant));
}
