namespace ServiceRules.Domain.Records;

/// <summary>A part fitted during the job.</summary>
public enum PartKind
{
    /// <summary>New bedknife.</summary>
    Bedknife,

    /// <summary>New reel.</summary>
    Reel,

    /// <summary>Reel bearing.</summary>
    ReelBearing,

    /// <summary>Roller bearing.</summary>
    RollerBearing,

    /// <summary>Roller.</summary>
    Roller,

    /// <summary>Seal.</summary>
    Seal,

    /// <summary>Roller brush.</summary>
    Brush,

    /// <summary>Groomer blades.</summary>
    GroomerBlades,

    /// <summary>Guard or shield.</summary>
    Guard,

    /// <summary>Anything else, told in the note.</summary>
    Other,
}
