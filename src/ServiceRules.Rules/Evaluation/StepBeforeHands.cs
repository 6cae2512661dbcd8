namespace ServiceRules.Rules.Evaluation;

/// <summary>A step before hands go in, in the order in which a person does them.</summary>
public enum StepBeforeHands
{
    /// <summary>What stands in the place of the steps that follow, shown.</summary>
    Claimed,

    /// <summary>People told, and put in charge.</summary>
    Told,

    /// <summary>Energies and controls gone through.</summary>
    Reviewed,

    /// <summary>The reel drive out.</summary>
    DriveDisengaged,

    /// <summary>The units lowered or on their stands.</summary>
    UnitsDown,

    /// <summary>The brake set.</summary>
    BrakeSet,

    /// <summary>The machine shut down.</summary>
    ShutDown,

    /// <summary>The key out.</summary>
    KeyRemoved,

    /// <summary>The reels seen at rest.</summary>
    SeenAtRest,

    /// <summary>Every isolator off, every plug out.</summary>
    Isolated,

    /// <summary>Locks and tags on, plugs kept.</summary>
    Held,

    /// <summary>Stored energy released.</summary>
    Released,

    /// <summary>The reel wedged.</summary>
    ReelWedged,

    /// <summary>Every source proven dead.</summary>
    Verified,

    /// <summary>Measures against what cannot be switched off.</summary>
    MeasuresRecorded,

    /// <summary>Whatever else a site asks for.</summary>
    Other,

    /// <summary>Gloves on: the last thing before hands go near the blades.</summary>
    GlovesWorn,

    /// <summary>All of it together.</summary>
    Protected,
}
