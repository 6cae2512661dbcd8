namespace ServiceRules.Domain.Records;

/// <summary>Reel-to-bedknife contact as heard and felt when the reel is turned slowly backwards by hand.</summary>
public enum ContactState
{
    /// <summary>Nothing touches.</summary>
    None,

    /// <summary>Light, heard and felt over the full width.</summary>
    Light,

    /// <summary>Touches over part of the width.</summary>
    Partial,

    /// <summary>Heavy: a fault in every school.</summary>
    Heavy,
}
