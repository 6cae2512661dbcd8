namespace ServiceRules.Domain.Timeline;

/// <summary>What a wall-clock time means in a zone: one moment, one of two, or none.</summary>
public abstract record ResolvedTime
{
    private ResolvedTime() { }

    /// <summary>The wall clock showed this time once.</summary>
    /// <param name="Moment">When.</param>
    public sealed record Unique(Moment Moment) : ResolvedTime;

    /// <summary>The wall clock showed this time more than once, because it was set back in between.</summary>
    /// <param name="Earliest">The first time.</param>
    /// <param name="Latest">The last time.</param>
    public sealed record Ambiguous(Moment Earliest, Moment Latest) : ResolvedTime;

    /// <summary>The wall clock never showed this time: it was set forward past it, or had no second 60 there.</summary>
    public sealed record Nonexistent : ResolvedTime;
}
