namespace ServiceRules.Rules.Checking;

/// <summary>How a diagnostic lists the names that would be right.</summary>
internal static class KnownNames
{
    // A longer list is not read.
    private const int Longest = 12;

    public static string Of(IEnumerable<string> names, string otherwise)
    {
        var known = names.Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal).ToList();
        return known.Count is 0 or > Longest
            ? otherwise
            : "one of " + string.Join(", ", known.Select(name => $"`{name}`"));
    }
}
