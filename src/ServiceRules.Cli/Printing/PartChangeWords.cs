using ServiceRules.Application.Comparing;

namespace ServiceRules.Cli.Printing;

/// <summary>What two versions say differently, on one line: member, from, to.</summary>
internal static class PartChangeWords
{
    public static string Of(PartChange change) =>
        $"{change.Where} {Plain(change.Old)} -> {Plain(change.New)}";

    public static string Of(IEnumerable<PartChange> changes) => string.Join("; ", changes.Select(Of));

    private static string Plain(string? json) =>
        json is null ? "(left out)"
        : json.Length > 1 && json[0] == '"' && json[^1] == '"' ? json[1..^1]
        : json;
}
