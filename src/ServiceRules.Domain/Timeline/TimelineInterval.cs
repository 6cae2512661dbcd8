namespace ServiceRules.Domain.Timeline;

/// <summary>
/// A stretch of a timeline: from a place, itself included, until a place that is no longer part of it. Never empty
/// inside an <see cref="IntervalSet"/>.
/// </summary>
/// <param name="From">First place.</param>
/// <param name="Until">First place after it; absent: the record shows no end.</param>
public readonly record struct TimelineInterval(TimelinePlace From, TimelinePlace? Until)
{
    /// <summary>Whether a place lies in it.</summary>
    public bool Contains(TimelinePlace place) => From <= place && (Until is not { } until || place < until);

    /// <summary>Whether nothing lies in it.</summary>
    public bool IsEmpty => Until is { } until && until <= From;

    /// <summary>What both have in common; may be empty.</summary>
    public TimelineInterval Overlap(TimelineInterval other)
    {
        var from = From > other.From ? From : other.From;
        var until =
            Until is not { } mine ? other.Until
            : other.Until is not { } theirs ? mine
            : mine < theirs ? mine
            : theirs;
        return new(from, until);
    }
}
