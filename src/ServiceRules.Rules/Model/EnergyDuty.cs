namespace ServiceRules.Rules.Model;

/// <summary>A duty of working on a machine whose energy is controlled, in neutral words. Names in rules are these in kebab-case.</summary>
public enum EnergyDuty
{
    /// <summary>Energies and controls of the machine were gone through before it was shut down.</summary>
    EnergyReviewed,

    /// <summary>The machine was shut down in an orderly way before anything was isolated.</summary>
    OrderlyShutdown,

    /// <summary>Every source that can be isolated was isolated before hands went in.</summary>
    SourcesIsolated,

    /// <summary>What was operated keeps energy out; a control device does not.</summary>
    IsolatingDevice,

    /// <summary>A lock or tag hung on every isolator before hands went in.</summary>
    DeviceOnEachIsolator,

    /// <summary>Every lock or tag holds its isolator off.</summary>
    DeviceHoldsOff,

    /// <summary>A lock hung wherever the isolator takes one.</summary>
    LockWhereItFits,

    /// <summary>A tag hung where the lock would.</summary>
    TagAtLockPoint,

    /// <summary>Stored energy was released or restrained before hands went in.</summary>
    StoredEnergyReleased,

    /// <summary>Energy that can build up again was checked again in time.</summary>
    BuildUpRechecked,

    /// <summary>Every source was proven dead before hands went in.</summary>
    IsolationVerified,

    /// <summary>The steps of making safe came in their order.</summary>
    MakeSafeOrder,

    /// <summary>The people affected were told before controls went on.</summary>
    AffectedTold,

    /// <summary>The people affected were told after controls came off.</summary>
    AffectedToldAfter,

    /// <summary>The people affected were told before the machine was started.</summary>
    ToldBeforeStart,

    /// <summary>Tools and parts were clear before controls came off.</summary>
    AreaInspected,

    /// <summary>Everybody was clear before controls came off.</summary>
    PeopleClear,

    /// <summary>Every device was taken off by whoever put it on.</summary>
    DeviceOffByOwner,

    /// <summary>Before the device of an absent owner came off, their absence was confirmed.</summary>
    OwnerAbsent,

    /// <summary>Before the device of an absent owner came off, they were sought.</summary>
    OwnerSought,

    /// <summary>The absent owner was told before they took up work again.</summary>
    OwnerTold,

    /// <summary>The device of an outside employer was left alone.</summary>
    OutsideDeviceLeftAlone,

    /// <summary>Tools were clear before the machine was energised for a test.</summary>
    TestAreaClear,

    /// <summary>People were clear before the machine was energised for a test.</summary>
    TestPeopleClear,

    /// <summary>For a test, devices were taken off by whoever put them on.</summary>
    TestDeviceOwner,

    /// <summary>Nobody had hands in while the machine was energised.</summary>
    NoHandsWhileEnergised,

    /// <summary>After a test the whole sequence was done again before hands went in.</summary>
    RelockedAfterTest,

    /// <summary>Site and outside employer informed each other before their work.</summary>
    ContractorsInformed,

    /// <summary>In a group everybody was held by their own device.</summary>
    OwnDeviceInGroup,

    /// <summary>One person was put in charge of the group by the time at which a second joined.</summary>
    PrimaryNamed,

    /// <summary>The people of the group were accounted for before its device came off.</summary>
    GroupAccounted,

    /// <summary>Where crews work together, one person coordinates them.</summary>
    CoordinatorNamed,

    /// <summary>Over a change of people the isolation was never without a device.</summary>
    HandoverContinuous,

    /// <summary>Everybody, also alone, was held by their own device for as long as hands were in.</summary>
    OwnDeviceThroughWork,

    /// <summary>No record gave a machine energy, or took a lock off it, while another showed hands in it.</summary>
    ClearOfOtherRecords,

    /// <summary>A source that came during the job was brought under control before work went on.</summary>
    SourceAddedControlled,

    /// <summary>A task on the live machine was approved by the procedure.</summary>
    EnergisedTaskApproved,

    /// <summary>The measures of a task on the live machine were in place before it was started.</summary>
    EnergisedMeasuresFirst,

    /// <summary>A task on the live machine ran no longer than approved.</summary>
    EnergisedRunLength,

    /// <summary>Nothing was adjusted while the reel turned, save the clearance by a control that the procedure names.</summary>
    AdjusterUntouchedWhileRunning,

    /// <summary>No gloves were worn near a turning reel.</summary>
    NoGlovesNearTurningReel,

    /// <summary>Before a blockage was cleared, the machine was stopped and seen at rest.</summary>
    BlockageStopped,

    /// <summary>Before a blockage was cleared, the pressure behind it was released.</summary>
    BlockagePressureReleased,

    /// <summary>A blockage was cleared with a tool, never by hand.</summary>
    BlockageTool,

    /// <summary>After a blockage was cleared, the unit was looked over.</summary>
    BlockageCheckedAfter,

    /// <summary>A written procedure was in force for the machine.</summary>
    WrittenProcedure,

    /// <summary>The procedure covers every source of the machine, with isolation and proof.</summary>
    ProcedureCoversSources,

    /// <summary>A machine without a written procedure meets all that is needed to do without.</summary>
    UndocumentedException,

    /// <summary>Devices are registered for lockout and used for nothing else.</summary>
    DeviceForLockoutOnly,

    /// <summary>Devices look as the site's own do.</summary>
    DeviceOfSiteStyle,

    /// <summary>Every lock shows whose it is, and was hung by its owner.</summary>
    DeviceShowsOwner,

    /// <summary>Every tag says what it warns of.</summary>
    TagWarns,

    /// <summary>The procedure was inspected within the year.</summary>
    ProcedureInspected,

    /// <summary>The inspector is authorised and does not use the procedure.</summary>
    InspectorIndependent,

    /// <summary>What the inspection found was put right.</summary>
    InspectionFindingsClosed,

    /// <summary>The inspection went through their duties with everybody who locks out.</summary>
    InspectionReviewedWithEach,

    /// <summary>Where tags are used, the inspection went through their limits with the people affected.</summary>
    InspectionTagReview,

    /// <summary>The certificate names machine, date, people and inspector.</summary>
    InspectionCertified,

    /// <summary>Whoever hung a device was trained in the sources of the machine.</summary>
    TrainedInEnergies,

    /// <summary>The people affected were instructed.</summary>
    AffectedInstructed,

    /// <summary>Whoever hung a tag was taught the limits of tags.</summary>
    TrainedInTags,

    /// <summary>After a change of the control steps, whoever uses them was trained again.</summary>
    RetrainedOnChange,

    /// <summary>After a finding about a person, they were trained again.</summary>
    RetrainedAfterFinding,

    /// <summary>Every training has a name and a date.</summary>
    TrainingCertified,

    /// <summary>Only authorised people with a part in the job hung devices.</summary>
    OnlyAuthorisedHang,

    /// <summary>A claim of minor servicing is good.</summary>
    MinorServicingClaim,

    /// <summary>A claim of cord and plug is good.</summary>
    CordAndPlugClaim,

    /// <summary>Whether the work is covered was decided by a named person.</summary>
    CoverageDecided,

    /// <summary>Electrical work points at the record of it.</summary>
    ElectricalRecord,

    /// <summary>Only authorised people had hands in, whether or not a device was hung.</summary>
    WorkByAuthorised,

    /// <summary>Training held from the first to the last day of the job.</summary>
    TrainingThroughWork,

    /// <summary>The inspection of the procedure held from the first to the last day of the job.</summary>
    InspectionThroughWork,

    /// <summary>Nobody released or waived a safety exception of their own.</summary>
    OwnExceptionNotReleased,

    /// <summary>Whoever ran the machine for a test or a task is authorised, or named for it by the procedure.</summary>
    EnergisedByAuthorised,

    /// <summary>After a run in the middle of the job the machine was shut down again before hands went in.</summary>
    ShutDownAfterRun,

    /// <summary>A record of work on the bench shows no step that only a machine in one piece can give.</summary>
    PlaceAsRecorded,

    /// <summary>Whoever isolated, released, verified or put the machine into service again is authorised.</summary>
    IsolationByAuthorised,
}
