namespace ServiceRules.Host;

/// <summary>What somebody needs to come in for the first time.</summary>
public sealed record WaysIn
{
    /// <summary>What the first administrator is made with, where there is no account yet.</summary>
    public string? FirstSecret { get; init; }

    /// <summary>The accounts of the demo, by their names, with passwords that are good until it starts again.</summary>
    public IReadOnlyList<KeyValuePair<string, string>> DemoPasswords { get; init; } = [];

    /// <summary>A key of the demo for programs, good until it starts again.</summary>
    public string? DemoKey { get; init; }
}
