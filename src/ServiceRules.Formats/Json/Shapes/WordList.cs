using ServiceRules.Rules.Diagnostics;

namespace ServiceRules.Formats.Json.Shapes;

/// <summary>How a message lists the words that are accepted, the probable one first.</summary>
internal static class WordList
{
    // A list longer than this is not read; the schema has it in full.
    private const int LongestList = 24;

    public static string OneOf(string found, IReadOnlyCollection<string> accepted, string none)
    {
        if (accepted.Count == 0)
        {
            return none;
        }

        string? nearest = NearestName.Of(found, accepted);
        string meant = nearest is null ? "" : $"did you mean `{nearest}`? ";
        string listed = string.Join(", ", accepted.Take(LongestList).Select(FoundText.Of));
        return meant
            + (accepted.Count == 1 ? "" : "one of ")
            + listed
            + (accepted.Count > LongestList ? ", …" : "");
    }
}
