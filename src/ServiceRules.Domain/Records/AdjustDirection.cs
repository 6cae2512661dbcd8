namespace ServiceRules.Domain.Records;

/// <summary>Which way something was turned.</summary>
public enum AdjustDirection
{
    /// <summary>Makes the gap larger.</summary>
    Open,

    /// <summary>Makes the gap smaller.</summary>
    Close,

    /// <summary>Makes the height larger; of the front roller its distance from the cutting edge.</summary>
    Raise,

    /// <summary>Makes the height smaller; of the front roller its distance from the cutting edge.</summary>
    Lower,
}
