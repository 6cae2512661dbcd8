namespace ServiceRules.Domain.Records;

/// <summary>What was ground or lapped.</summary>
public enum GrindingKind
{
    /// <summary>Reel spun against the stone.</summary>
    ReelSpin,

    /// <summary>Metal removed behind the reel edge.</summary>
    ReelRelief,

    /// <summary>Top face of the bedknife.</summary>
    BedknifeTop,

    /// <summary>Front face of the bedknife.</summary>
    BedknifeFront,

    /// <summary>Reel run backwards with paste.</summary>
    Lapping,
}
