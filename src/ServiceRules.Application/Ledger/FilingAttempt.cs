namespace ServiceRules.Application.Ledger;

/// <summary>What came of one of several filings: an outcome, or what kept it from one. The others do not depend on it.</summary>
internal abstract record FilingAttempt
{
    private FilingAttempt() { }

    public sealed record Came(FilingOutcome Outcome) : FilingAttempt;

    public sealed record Failed(Exception Failure) : FilingAttempt;
}
