namespace ServiceRules.Domain.Timeline;

/// <summary>What a timeline entry says. Names in records are these in snake_case.</summary>
public enum TimelineEventKind
{
    /// <summary>Affected people told before controls go on.</summary>
    AffectedNotifiedBefore,

    /// <summary>The worker acknowledged energies and controls of the procedure.</summary>
    EnergyReviewed,

    /// <summary>Reel drive disengaged.</summary>
    DriveDisengaged,

    /// <summary>Units lowered to the ground, or positively latched.</summary>
    UnitsLowered,

    /// <summary>Parking brake set.</summary>
    ParkingBrakeSet,

    /// <summary>Orderly stop of the engine or motor.</summary>
    MachineShutDown,

    /// <summary>Key taken out and kept by the actor.</summary>
    KeyRemoved,

    /// <summary>Everything seen at rest.</summary>
    SeenAtRest,

    /// <summary>One isolating device moved to off.</summary>
    IsolatorOperated,

    /// <summary>Cord unplugged.</summary>
    PlugRemoved,

    /// <summary>Plug under exclusive control.</summary>
    PlugControlConfirmed,

    /// <summary>Lock on an isolator or group box.</summary>
    LockApplied,

    /// <summary>Tag used as device.</summary>
    TagApplied,

    /// <summary>Stored energy relieved or restrained.</summary>
    StoredEnergyReleased,

    /// <summary>Reel wedged against turning.</summary>
    ReelWedged,

    /// <summary>Unit lifted and supported on the bench.</summary>
    UnitSupported,

    /// <summary>Cut-resistant gloves worn while the reel is at rest.</summary>
    GlovesWorn,

    /// <summary>Try-out or measurement that nothing moves.</summary>
    IsolationVerified,

    /// <summary>Hands-on work begins, per worker.</summary>
    WorkStarted,

    /// <summary>Hands-on work ends, per worker.</summary>
    WorkStopped,

    /// <summary>Repeat check of stored energy during work.</summary>
    StoredEnergyRechecked,

    /// <summary>A blockage cleared with a tool.</summary>
    BlockageClearedWithTool,

    /// <summary>A blockage cleared by hand.</summary>
    BlockageClearedByHand,

    /// <summary>Tools and parts clear, machine intact.</summary>
    AreaInspected,

    /// <summary>Guards and shields back in place.</summary>
    GuardsRefitted,

    /// <summary>Cut-outs and interlocks proved to work.</summary>
    CutOutsProved,

    /// <summary>A defect that affects safety was found.</summary>
    SafetyDefectFound,

    /// <summary>A defect that affects safety was put right.</summary>
    SafetyDefectClosed,

    /// <summary>Everyone positioned or away.</summary>
    PeopleClearChecked,

    /// <summary>The one in charge accounts for the group's members.</summary>
    ExposureChecked,

    /// <summary>Lock off.</summary>
    LockRemoved,

    /// <summary>Tag off.</summary>
    TagRemoved,

    /// <summary>Affected people told after removal.</summary>
    RemovalNotified,

    /// <summary>First start after release.</summary>
    MachineStarted,

    /// <summary>Machine handed back to its operator.</summary>
    HandedBack,

    /// <summary>Energised for test or positioning.</summary>
    TestEnergised,

    /// <summary>De-energised again.</summary>
    TestEnded,

    /// <summary>Approved task on the running reel with measures, no hands.</summary>
    EnergisedTaskPerformed,

    /// <summary>Measures in place for an excepted or energised task.</summary>
    AlternativeMeasuresRecorded,

    /// <summary>One person made responsible for a group.</summary>
    PrimaryAssigned,

    /// <summary>Overall coordinator of several crews.</summary>
    CoordinatorAssigned,

    /// <summary>Site and outside employer informed each other.</summary>
    ContractorProceduresExchanged,

    /// <summary>Outgoing to incoming person.</summary>
    HandoverBriefed,

    /// <summary>Lock owner not on site.</summary>
    AbsenceConfirmed,

    /// <summary>Try to reach the lock owner.</summary>
    ContactAttempted,

    /// <summary>Lock owner told.</summary>
    OwnerInformed,

    /// <summary>Lock owner starts work again.</summary>
    ResumedWork,

    /// <summary>An exemption is claimed.</summary>
    ExemptionClaimed,

    /// <summary>A source came to the machine during the job: an attachment or a charger plugged in.</summary>
    SourceAdded,
}
