namespace ServiceRules.Domain.Verdicts;

/// <summary>Where a record stands.</summary>
public enum RecordState
{
    /// <summary>No sign-off: in progress, never released.</summary>
    Open,

    /// <summary>Signed off.</summary>
    SignedOff,

    /// <summary>Signed off and re-checked after first use.</summary>
    FollowedUp,
}
