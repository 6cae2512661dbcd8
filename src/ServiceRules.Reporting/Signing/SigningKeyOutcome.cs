namespace ServiceRules.Reporting.Signing;

/// <summary>A key fit for use, or why there is none.</summary>
public abstract record SigningKeyOutcome
{
    private SigningKeyOutcome() { }

    /// <param name="Key">The key, owned by the caller.</param>
    /// <param name="Created">True when it was made just now.</param>
    public sealed record Usable(SigningKey Key, bool Created) : SigningKeyOutcome;

    /// <param name="Reason">What is wrong, where, and what would be accepted.</param>
    public sealed record Refused(string Reason) : SigningKeyOutcome;
}
