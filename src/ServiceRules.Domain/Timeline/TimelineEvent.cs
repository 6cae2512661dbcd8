using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Domain.Timeline;

/// <summary>
/// One time-stamped fact of the make-safe timeline. Which optional members a kind needs and may have is stated by
/// <see cref="EventVocabulary"/> and held by the reader.
/// </summary>
public sealed record TimelineEvent
{
    /// <summary>What happened.</summary>
    public required TimelineEventKind Kind { get; init; }

    /// <summary>When, as recorded.</summary>
    public required RecordedTime At { get; init; }

    /// <summary>Who did it.</summary>
    public required Id<Participant> Actor { get; init; }

    /// <summary>Which energy source, all of them, or the group lock box.</summary>
    public SourceReference? Source { get; init; }

    /// <summary>Which lock or tag.</summary>
    public Id<LockDevice>? Lock { get; init; }

    /// <summary>Client event id; the same id is the same event.</summary>
    public string? EventId { get; init; }

    /// <summary>Recording device.</summary>
    public string? Device { get; init; }

    /// <summary>Counter of that device.</summary>
    public int? Sequence { get; init; }

    /// <summary>When the entry was received, where that is known.</summary>
    public RecordedTime? ReceivedAt { get; init; }

    /// <summary>How the entry came about.</summary>
    public EntryMark Mark { get; init; } = EntryMark.AtTheTime;

    /// <summary>Kind of isolator operated, or of the device.</summary>
    public string? Isolator { get; init; }

    /// <summary>Position in which the isolator was left.</summary>
    public IsolatorPosition? Position { get; init; }

    /// <summary>A pressure read, where zero energy was proven by a gauge.</summary>
    public Pressure? Pressure { get; init; }

    /// <summary>How it was done: stands, start attempt, gauge.</summary>
    public string? Method { get; init; }

    /// <summary>Why, for a temporary removal.</summary>
    public string? Reason { get; init; }

    /// <summary>Documented exception relied on.</summary>
    public string? Exception { get; init; }

    /// <summary>A tag that hangs where the lock would.</summary>
    public bool AtLockPoint { get; init; }

    /// <summary>Other people concerned: told, briefed, accounted for, assigned.</summary>
    public ImmutableArray<Id<Participant>> Others { get; init; } = [];

    /// <summary>What is said for an exemption; stands on every claim of one.</summary>
    public ExemptionClaim? Claim { get; init; }

    /// <summary>Measures in place for an excepted or energised task.</summary>
    public ImmutableArray<ProtectiveMeasure> Measures { get; init; } = [];

    /// <summary>How many people the one in charge of a group answers for.</summary>
    public int? Count { get; init; }

    /// <summary>Crews that a coordinator brings together.</summary>
    public ImmutableArray<string> Crews { get; init; } = [];

    /// <summary>What is done beside hanging a tag so that it protects as a lock would.</summary>
    public string? ExtraMeasure { get; init; }

    /// <summary>Which task a run of the machine is for.</summary>
    public ServiceTask? Task { get; init; }

    /// <summary>Identity text of the procedure that was gone through.</summary>
    public string? Procedure { get; init; }
}
