namespace ServiceRules.Host.Pages.Bench;

/// <summary>What a job can be begun with, and what was chosen.</summary>
/// <param name="Site">The site, where there are several.</param>
public sealed record BeginChoice(
    string? Site,
    IReadOnlyList<NamedChoice> Machines,
    IReadOnlyList<NamedChoice> Tasks,
    IReadOnlyList<NamedChoice> Procedures,
    IReadOnlyList<string> People
)
{
    public string? Machine { get; init; }

    public string? Task { get; init; }

    public string? Procedure { get; init; }

    public string? Person { get; init; }
}

/// <summary>One thing to choose.</summary>
public sealed record NamedChoice(string Id, string Title);
