namespace ServiceRules.Rules.Model;

/// <summary>What about the record's credibility is judged.</summary>
public enum CredibilityOf
{
    /// <summary>Times without an offset.</summary>
    NoOffset,

    /// <summary>Entries marked late or transcribed.</summary>
    LateEntries,

    /// <summary>Many make-safe steps within a second or two.</summary>
    Bursts,

    /// <summary>Entries received long after the job without being marked.</summary>
    BackFilled,

    /// <summary>A device's clock that goes back.</summary>
    ClockBackward,

    /// <summary>Times of bench entries that contradict their order or the work intervals.</summary>
    EntryTimes,

    /// <summary>The record's date against the days of its timeline and bench times.</summary>
    RecordDate,

    /// <summary>Times later than the entry was received.</summary>
    FutureStamps,

    /// <summary>One step on one source claimed by two people with nothing undone between, or one identity of two entries that say different things.</summary>
    ConflictingDuplicates,

    /// <summary>A lock or tag on two machines at once.</summary>
    LockInTwoPlaces,

    /// <summary>Somebody at work here while they were away or at work at another machine.</summary>
    PersonElsewhere,

    /// <summary>A lock or tag put on, taken off or left on as no lock or tag can be.</summary>
    DeviceHistory,

    /// <summary>The machine started while it was held off.</summary>
    StartedHeldOff,

    /// <summary>The offset from UTC of one person's or device's times changes where the site's clocks do not.</summary>
    OffsetChanges,

    /// <summary>A source that neither the register of machines nor the procedure has, and that no entry brings.</summary>
    UnknownSources,

    /// <summary>Everything seen at rest sooner after a stop than it can have been.</summary>
    RestTooSoon,
}
