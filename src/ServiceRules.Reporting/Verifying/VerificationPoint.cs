namespace ServiceRules.Reporting.Verifying;

/// <summary>One check, how it ended, and what was found in plain words.</summary>
public sealed record VerificationPoint(VerificationCheck Check, PointState State, string Told)
{
    /// <summary>Whether it leaves room for this: not one byte differs from what was signed.</summary>
    public bool LeavesIntact =>
        State is PointState.Passed or PointState.NotClaimed or PointState.NotEstablished
        || Check is VerificationCheck.Trust or VerificationCheck.Revocation;

    /// <summary>Whether it leaves room for this: the report is what it claims to be.</summary>
    public bool LeavesGenuine => State is PointState.Passed or PointState.NotClaimed;
}
