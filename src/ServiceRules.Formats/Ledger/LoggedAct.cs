namespace ServiceRules.Formats.Ledger;

/// <summary>A privileged act: the content of its entry. Accounts and keys stand in it by what was drawn for them.</summary>
/// <param name="At">When, in UTC, to the millisecond.</param>
/// <param name="What">Which act.</param>
/// <param name="By">Who did it: an account, a key, whoever has the machine, nobody who was known, or the service.</param>
/// <param name="About">What it was done to.</param>
public sealed record LoggedAct(DateTimeOffset At, string What, string By, string About)
{
    /// <summary>Which roles were given, or why; absent when there is nothing more to tell.</summary>
    public string? Detail { get; init; }
}
