namespace ServiceRules.Application.Demo;

/// <summary>What is wrong, on purpose, in a demo job.</summary>
public enum SeededFaultKind
{
    /// <summary>The height gauge reads high by more than it can show, all week.</summary>
    MisSetHeightGauge,

    /// <summary>Nobody tried whether the machine was dead.</summary>
    IsolationNotVerified,

    /// <summary>The machine went out with no word of its guards.</summary>
    GuardsNotRecorded,

    /// <summary>The isolator was off, and nobody's lock was on it.</summary>
    NoLock,

    /// <summary>Every step carries a good time, and all of them came in that evening, unmarked.</summary>
    BackFilledTimes,

    /// <summary>Five steps around the machine in two seconds.</summary>
    BurstOfSteps,

    /// <summary>The lock was taken off by somebody else.</summary>
    LockTakenOffByAnother,

    /// <summary>Four hours of work and no second check of the hydraulic pressure.</summary>
    RecheckMissed,

    /// <summary>The blockage was pulled out by hand.</summary>
    BlockageClearedByHand,

    /// <summary>A safety defect was found, and nothing shows it put right.</summary>
    DefectLeftOpen,

    /// <summary>The work is done and the job was never signed off.</summary>
    NotSignedOff,

    /// <summary>Somebody worked whose training had run out.</summary>
    TrainingLapsed,

    /// <summary>A gauge was used whose calibration had run out.</summary>
    CalibrationLapsed,

    /// <summary>A set of feelers was used that nobody had inspected.</summary>
    FeelersNotInspected,

    /// <summary>Height was read, then the moving bedknife was turned, and height was not read again.</summary>
    HeightReadBeforeClearance,

    /// <summary>Height was read at one end only.</summary>
    HeightReadAtOneEnd,

    /// <summary>The gap was left wider than the sheet allows.</summary>
    ClearanceTooWide,

    /// <summary>A reel runs heavily on its bedknife.</summary>
    HeavyContact,

    /// <summary>A unit that is set to light contact does not touch.</summary>
    ContactLost,

    /// <summary>One side of a unit is higher than the other.</summary>
    UnitTilted,

    /// <summary>The units of a machine are each near the target and too far from each other.</summary>
    SpreadAcrossUnits,

    /// <summary>The ends of two neighbours meet in a step.</summary>
    AdjacentEndsStep,

    /// <summary>The height is off its target.</summary>
    HeightOffTarget,

    /// <summary>The front roller is out of parallel.</summary>
    FrontRollerOutOfParallel,

    /// <summary>The shield stands too far off the blades.</summary>
    ShieldTooWide,

    /// <summary>The groomer does not start at the height of cut.</summary>
    GroomerOffHeight,

    /// <summary>A worn reel, and the bedknife still where it was for a new one.</summary>
    WornReelNotSetUp,

    /// <summary>A reel smaller than its service limit.</summary>
    ReelBelowServiceLimit,

    /// <summary>A bedknife lip ground below its service limit.</summary>
    BedknifeLipGone,

    /// <summary>A reel bearing with play.</summary>
    BearingPlay,

    /// <summary>Alone at the machine: the lock came off in the middle of the work and was hung again.</summary>
    LockOffMidJob,

    /// <summary>The machine was run to hear the contact, and hands went in again with nothing locked.</summary>
    RunNotRelocked,

    /// <summary>One shift took its lock off and left; the next hung its own half an hour later.</summary>
    ShiftGap,

    /// <summary>The adjuster was turned while the reel turned for lapping.</summary>
    AdjusterTurnedInRun,
}
