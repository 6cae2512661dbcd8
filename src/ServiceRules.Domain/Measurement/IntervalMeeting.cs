namespace ServiceRules.Domain.Measurement;

/// <summary>What two intervals say together. A closed family of two.</summary>
public abstract record IntervalMeeting
{
    private IntervalMeeting() { }

    /// <summary>The lengths both allow.</summary>
    public sealed record Overlap(LengthInterval Interval) : IntervalMeeting;

    /// <summary>No length satisfies both.</summary>
    public sealed record Contradiction(LengthInterval First, LengthInterval Second) : IntervalMeeting;
}
