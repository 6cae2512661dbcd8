namespace ServiceRules.Application.Demo;

/// <summary>What looks odd in a job and is nobody's fault.</summary>
internal enum OddityKind
{
    /// <summary>A step was entered later, and says so.</summary>
    HonestLateEntry,

    /// <summary>The tablet had no network and says so; the entries came in with the evening.</summary>
    DeviceOffline,

    /// <summary>The job began one day and ended the next.</summary>
    AcrossMidnight,

    /// <summary>The clocks were put back during the job.</summary>
    ClocksPutBack,

    /// <summary>This machine is read in inches, and the one beside it in millimetres.</summary>
    InchesBesideMillimetres,

    /// <summary>Near its limit, and let out by a second person with a reason.</summary>
    LetOutBySecondPerson,

    /// <summary>Twelve units on one bench.</summary>
    TwelveOnTheBench,

    /// <summary>The machine was run in the middle of the job, and everything was locked again.</summary>
    RunAndRelocked,

    /// <summary>One shift handed over to the next without a moment unlocked.</summary>
    ShiftHandedOver,

    /// <summary>Lapped on the turning reel, hands out and measures in their place.</summary>
    LappedWithHandsOut,

    /// <summary>Ground on the grinder, which is a machine of its own.</summary>
    GroundUnderItsOwnLock,
}
