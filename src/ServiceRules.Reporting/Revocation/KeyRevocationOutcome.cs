namespace ServiceRules.Reporting.Revocation;

/// <summary>A key on the list, or why it is not.</summary>
public abstract record KeyRevocationOutcome
{
    private KeyRevocationOutcome() { }

    /// <param name="List">The list with the key on it, as it lies in the folder.</param>
    public sealed record Revoked(RevocationList List) : KeyRevocationOutcome;

    /// <param name="Reason">What is wrong, where, and what would be accepted.</param>
    public sealed record Refused(string Reason) : KeyRevocationOutcome;
}
