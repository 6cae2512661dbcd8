namespace ServiceRules.Rules.Model;

/// <summary>A control or kind of source that a machine may have.</summary>
public enum MachineNeed
{
    /// <summary>A key.</summary>
    Key,

    /// <summary>A parking brake.</summary>
    ParkingBrake,

    /// <summary>Units that lower.</summary>
    LoweringUnits,

    /// <summary>A reel drive that disengages.</summary>
    ReelDrive,

    /// <summary>Sources with an isolating device.</summary>
    IsolatedSource,

    /// <summary>Sources whose energy is stored.</summary>
    StoredSource,

    /// <summary>Somebody in the job is an affected person.</summary>
    AffectedPeople,
}
