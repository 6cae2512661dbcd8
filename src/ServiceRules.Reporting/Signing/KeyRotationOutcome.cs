namespace ServiceRules.Reporting.Signing;

/// <summary>A new key, or why there is none.</summary>
public abstract record KeyRotationOutcome
{
    private KeyRotationOutcome() { }

    /// <param name="Key">The new key, owned by the caller.</param>
    /// <param name="Retired">Fingerprint of the old certificate.</param>
    public sealed record Rotated(SigningKey Key, string Retired) : KeyRotationOutcome;

    /// <param name="Reason">What is wrong, where, and what would be accepted.</param>
    public sealed record Refused(string Reason) : KeyRotationOutcome;
}
