using System.Collections.Immutable;

namespace ServiceRules.Domain.Timeline;

/// <summary>
/// When something held: disjoint stretches of a timeline in order, none empty, none touching the next. Equal when they
/// hold the same places.
/// </summary>
public sealed class IntervalSet : IEquatable<IntervalSet>
{
    private IntervalSet(ImmutableArray<TimelineInterval> intervals) => Intervals = intervals;

    /// <summary>Never.</summary>
    public static IntervalSet Never { get; } = new([]);

    /// <summary>Always.</summary>
    public static IntervalSet Always { get; } = new([new(TimelinePlace.Beginning, null)]);

    /// <summary>The stretches, in order.</summary>
    public ImmutableArray<TimelineInterval> Intervals { get; }

    /// <summary>Any stretches, in any order, joined where they overlap or touch.</summary>
    public static IntervalSet Of(IEnumerable<TimelineInterval> intervals)
    {
        ArgumentNullException.ThrowIfNull(intervals);
        var joined = ImmutableArray.CreateBuilder<TimelineInterval>();
        foreach (
            var next in intervals.Where(interval => !interval.IsEmpty).OrderBy(interval => interval.From)
        )
        {
            if (joined.Count > 0 && Touches(joined[^1], next))
            {
                joined[^1] = new(joined[^1].From, Later(joined[^1].Until, next.Until));
            }
            else
            {
                joined.Add(next);
            }
        }

        return joined.Count == 0 ? Never : new(joined.ToImmutable());
    }

    /// <summary>
    /// When something stood that was brought about at some places and ended at others. Brought about again while it
    /// stands changes nothing; so does an end while it does not stand. At one and the same place the end comes first.
    /// </summary>
    public static IntervalSet Latched(IEnumerable<TimelinePlace> begins, IEnumerable<TimelinePlace> ends)
    {
        ArgumentNullException.ThrowIfNull(begins);
        ArgumentNullException.ThrowIfNull(ends);
        var turns = begins
            .Select(place => (Place: place, Begins: true))
            .Concat(ends.Select(place => (Place: place, Begins: false)))
            .OrderBy(turn => turn.Place)
            .ThenBy(turn => turn.Begins);
        var stood = ImmutableArray.CreateBuilder<TimelineInterval>();
        TimelinePlace? since = null;
        foreach (var turn in turns)
        {
            if (turn.Begins)
            {
                since ??= turn.Place;
            }
            else if (since is { } from)
            {
                stood.Add(new(from, turn.Place));
                since = null;
            }
        }

        if (since is { } open)
        {
            stood.Add(new(open, null));
        }

        return Of(stood);
    }

    /// <summary>Where stretches end.</summary>
    public IEnumerable<TimelinePlace> Ends =>
        Intervals.Select(interval => interval.Until).OfType<TimelinePlace>();

    /// <summary>Whether it held at a place.</summary>
    public bool Contains(TimelinePlace place) => StretchAt(place) is not null;

    /// <summary>The stretch that a place lies in, or null.</summary>
    public TimelineInterval? StretchAt(TimelinePlace place)
    {
        foreach (var interval in Intervals)
        {
            if (interval.Contains(place))
            {
                return interval;
            }
        }

        return null;
    }

    /// <summary>When either held.</summary>
    public IntervalSet Or(IntervalSet other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return Of(Intervals.Concat(other.Intervals));
    }

    /// <summary>When both held.</summary>
    public IntervalSet And(IntervalSet other)
    {
        ArgumentNullException.ThrowIfNull(other);
        var both = ImmutableArray.CreateBuilder<TimelineInterval>();
        int mine = 0;
        int theirs = 0;
        while (mine < Intervals.Length && theirs < other.Intervals.Length)
        {
            var common = Intervals[mine].Overlap(other.Intervals[theirs]);
            if (!common.IsEmpty)
            {
                both.Add(common);
            }

            // Whichever ends first has nothing in common with what comes after.
            if (EndsBefore(Intervals[mine], other.Intervals[theirs]))
            {
                mine++;
            }
            else
            {
                theirs++;
            }
        }

        return Of(both);
    }

    /// <summary>When this held and the other did not.</summary>
    public IntervalSet Without(IntervalSet other)
    {
        ArgumentNullException.ThrowIfNull(other);
        return And(other.Complement());
    }

    /// <summary>When it did not hold.</summary>
    public IntervalSet Complement()
    {
        var gaps = ImmutableArray.CreateBuilder<TimelineInterval>();
        TimelinePlace? from = TimelinePlace.Beginning;
        foreach (var interval in Intervals)
        {
            if (from is { } open)
            {
                gaps.Add(new(open, interval.From));
            }

            from = interval.Until;
        }

        if (from is { } rest)
        {
            gaps.Add(new(rest, null));
        }

        return Of(gaps);
    }

    /// <inheritdoc/>
    public bool Equals(IntervalSet? other) => other is not null && Intervals.SequenceEqual(other.Intervals);

    /// <inheritdoc/>
    public override bool Equals(object? obj) => Equals(obj as IntervalSet);

    /// <inheritdoc/>
    public override int GetHashCode() =>
        Intervals.Length == 0 ? 0 : HashCode.Combine(Intervals.Length, Intervals[0]);

    private static bool EndsBefore(TimelineInterval one, TimelineInterval other) =>
        one.Until is { } first && (other.Until is not { } second || first < second);

    private static bool Touches(TimelineInterval earlier, TimelineInterval later) =>
        earlier.Until is not { } until || later.From <= until;

    private static TimelinePlace? Later(TimelinePlace? one, TimelinePlace? other) =>
        one is not { } first || other is not { } second ? null
        : first > second ? first
        : second;
}
