namespace ServiceRules.Domain.Records;

/// <summary>Which way something was turned.</summary>
public enum AdjustDirection
{
    /// <summary>Makes the gap larger.</summary>
    Open,

    /// <summary>Makes the gap smaller.</summary>
    Close,

    /// <summary>Makes the height larger.</summary>
    Raise,

    /// <summary>Makes the height smaller.</summary>
    Lower,
}
