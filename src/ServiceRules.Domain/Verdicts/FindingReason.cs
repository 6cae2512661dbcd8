namespace ServiceRules.Domain.Verdicts;

/// <summary>Why a finding came out as it did. Closed; readers and pages depend on it.</summary>
public enum FindingReason
{
    /// <summary>Plain met, or does not apply.</summary>
    None,

    /// <summary>Outside the limit, beyond doubt.</summary>
    OutOfLimit,

    /// <summary>Within the guard of a limit: neither proven in nor out.</summary>
    InsideGuard,

    /// <summary>No reading with this gauge can prove this limit.</summary>
    GaugeCannotProve,

    /// <summary>The interval known crosses a limit.</summary>
    IntervalCrossesLimit,

    /// <summary>Probability of conformance is neither high nor low enough.</summary>
    ProbabilityBetween,

    /// <summary>Not measured.</summary>
    NotMeasured,

    /// <summary>Measured at too few places.</summary>
    TooFewStations,

    /// <summary>A later adjustment made the reading stale.</summary>
    Stale,

    /// <summary>Readings contradict one another.</summary>
    Conflicting,

    /// <summary>The gauge's uncertainty is not known.</summary>
    UncertaintyUnknown,

    /// <summary>The gauge was out of date, failed its inspection, or was not checked.</summary>
    GaugeUnfit,

    /// <summary>Read with an instrument that, by its kind or by the register, cannot read this quantity.</summary>
    GaugeCannotRead,

    /// <summary>No target or school is in force for this unit and day.</summary>
    NoSettingInForce,

    /// <summary>The procedure of the sheet was not followed: wrong feelers, stations or order.</summary>
    ProcedureNotFollowed,

    /// <summary>Contact is not what the site's school asks for.</summary>
    WrongContact,

    /// <summary>Heavy contact: a fault in every school.</summary>
    HeavyContact,

    /// <summary>Seen to be faulty.</summary>
    Faulty,

    /// <summary>A required step is not in the record.</summary>
    StepMissing,

    /// <summary>Steps stand in the wrong order.</summary>
    WrongOrder,

    /// <summary>Work outside a protected interval.</summary>
    Unprotected,

    /// <summary>Not the person, lock or device that the rule asks for.</summary>
    WrongPerson,

    /// <summary>Something has run out: calibration, training, inspection.</summary>
    OutOfDate,

    /// <summary>The record's own times or entries are not credible enough to prove it.</summary>
    NotCredible,

    /// <summary>Not yet: the job is open.</summary>
    InProgress,

    /// <summary>The register has nothing on this machine, person or lock.</summary>
    NotRegistered,
}
