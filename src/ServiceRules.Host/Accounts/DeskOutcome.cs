namespace ServiceRules.Host.Accounts;

/// <summary>What came of something that was asked of accounts.</summary>
/// <param name="Problems">Why it was not done; none: it was.</param>
internal sealed record DeskOutcome(IReadOnlyList<string> Problems)
{
    public static readonly DeskOutcome Done = new([]);

    /// <summary>What is shown this once.</summary>
    public string? Secret { get; init; }

    public bool IsDone => Problems.Count == 0;

    public static DeskOutcome Refused(params IReadOnlyList<string> problems) => new(problems);
}
