namespace ServiceRules.Domain.Verdicts;

/// <summary>What a finding does to the disposition.</summary>
public enum Effect
{
    /// <summary>Nothing.</summary>
    None,

    /// <summary>Nothing, but is told.</summary>
    Advise,

    /// <summary>Holds the subject.</summary>
    Hold,

    /// <summary>Stops the subject.</summary>
    Stop,
}
