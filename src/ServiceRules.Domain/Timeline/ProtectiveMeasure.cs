namespace ServiceRules.Domain.Timeline;

/// <summary>A measure that stands in for isolation while a task needs the machine alive.</summary>
public enum ProtectiveMeasure
{
    /// <summary>A brush long enough to keep hands away.</summary>
    LongHandledBrush,

    /// <summary>Guards and shields in place.</summary>
    GuardsInPlace,

    /// <summary>One person alone holds the controls.</summary>
    SingleOperatorControl,

    /// <summary>A second person stands at the stop.</summary>
    SecondPersonAtStopControl,

    /// <summary>The reel turns as slowly as the machine allows.</summary>
    SlowestReelSpeed,

    /// <summary>Everybody else is kept out.</summary>
    ExclusionZone,

    /// <summary>Eyes protected.</summary>
    EyeProtection,

    /// <summary>Hair and clothing secured.</summary>
    HairAndClothingSecured,

    /// <summary>No gloves near the turning reel: they are drawn in.</summary>
    NoGlovesNearTurningReel,

    /// <summary>The unit cannot roll.</summary>
    UnitSecuredAgainstRolling,

    /// <summary>Brake on and wheels chocked.</summary>
    BrakeOnWheelsChocked,

    /// <summary>Key out and kept.</summary>
    KeyRemovedAndKept,

    /// <summary>The unit is on the ground.</summary>
    UnitLowered,

    /// <summary>The reels were seen at rest.</summary>
    ReelsAtRestSeen,

    /// <summary>The engine is off.</summary>
    EngineOff,

    /// <summary>A tool that keeps hands away.</summary>
    ExtensionTool,

    /// <summary>Another measure, told in words.</summary>
    Other,
}
