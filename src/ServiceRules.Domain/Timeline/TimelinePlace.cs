namespace ServiceRules.Domain.Timeline;

/// <summary>
/// A place in the judged order of a timeline: by instant, and entries of one instant in the order they were entered.
/// </summary>
/// <param name="Moment">The instant.</param>
/// <param name="Index">Index of the entry in the record.</param>
public readonly record struct TimelinePlace(Moment Moment, int Index) : IComparable<TimelinePlace>
{
    /// <summary>Before every entry.</summary>
    public static TimelinePlace Beginning { get; } = new(default, int.MinValue);

    /// <summary>Compares by instant, then by the order of entry.</summary>
    public int CompareTo(TimelinePlace other) =>
        Moment != other.Moment ? Moment.CompareTo(other.Moment) : Index.CompareTo(other.Index);

    /// <summary>Whether the left place stands before the right one.</summary>
    public static bool operator <(TimelinePlace left, TimelinePlace right) => left.CompareTo(right) < 0;

    /// <summary>Whether the left place stands after the right one.</summary>
    public static bool operator >(TimelinePlace left, TimelinePlace right) => left.CompareTo(right) > 0;

    /// <summary>Whether the left place does not stand after the right one.</summary>
    public static bool operator <=(TimelinePlace left, TimelinePlace right) => left.CompareTo(right) <= 0;

    /// <summary>Whether the left place does not stand before the right one.</summary>
    public static bool operator >=(TimelinePlace left, TimelinePlace right) => left.CompareTo(right) >= 0;
}
