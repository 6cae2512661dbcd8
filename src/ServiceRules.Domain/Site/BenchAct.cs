namespace ServiceRules.Domain.Site;

/// <summary>What a line of the bench log tells of hands at a unit.</summary>
public enum BenchAct
{
    /// <summary>An adjuster was turned.</summary>
    AdjusterTurned,

    /// <summary>A part was fitted.</summary>
    PartFitted,

    /// <summary>A feeler was tried.</summary>
    FeelerTried,

    /// <summary>Paper was tried.</summary>
    PaperTried,

    /// <summary>The contact was felt.</summary>
    ContactFelt,

    /// <summary>A gauge was held to it.</summary>
    GaugeHeld,

    /// <summary>The bearings were felt for play.</summary>
    PlayFelt,

    /// <summary>The reel was lapped, which is done while it turns.</summary>
    ReelLapped,
}
