using ServiceRules.Domain.Timeline;

namespace ServiceRules.Domain.Records;

/// <summary>One line of the bench log of a unit. A closed family.</summary>
public abstract record BenchEntry
{
    private protected BenchEntry() { }

    /// <summary>When, if it was noted.</summary>
    public RecordedTime? At { get; init; }

    /// <summary>By whom, where more than one person performs the job.</summary>
    public Id<Participant>? By { get; init; }
}
