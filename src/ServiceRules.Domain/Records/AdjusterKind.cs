namespace ServiceRules.Domain.Records;

/// <summary>What can be turned or moved on a unit.</summary>
public enum AdjusterKind
{
    /// <summary>Bedknife-to-reel adjuster, in steps.</summary>
    Clearance,

    /// <summary>Height-of-cut adjuster.</summary>
    Height,

    /// <summary>Coarse height range (bracket hole, spacer).</summary>
    HeightRange,

    /// <summary>Squaring of the fixed roller.</summary>
    FrontRoller,

    /// <summary>Bedknife attitude or position for a worn reel.</summary>
    BedknifePosition,

    /// <summary>Groomer depth.</summary>
    Groomer,

    /// <summary>Roller brush.</summary>
    Brush,

    /// <summary>Shield.</summary>
    Shield,

    /// <summary>Reel bearing preload.</summary>
    Bearings,
}
