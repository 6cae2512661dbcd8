namespace ServiceRules.Reporting.Verifying;

/// <summary>One check, how it ended, and what was found in plain words.</summary>
public sealed record VerificationPoint(VerificationCheck Check, PointState State, string Told);
