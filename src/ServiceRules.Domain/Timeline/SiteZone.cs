using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Timeline;

/// <summary>
/// The wall clock of a site, frozen: a named zone as one version of the zone data describes it. Two zones are
/// equal when name, version and every transition are.
/// </summary>
public sealed record SiteZone
{
    private const int LongestName = 64;

    // Two a year from 1990 to 2200 are 422; the rest is room for a zone that could not make up its mind.
    private const int MostTransitions = 1_000;

    // The most that RFC 3339 can write.
    private const int LargestOffset = (23 * 60) + 59;

    private SiteZone(string name, string version, int firstOffset, ImmutableArray<ZoneTransition> transitions)
    {
        Name = name;
        DataVersion = version;
        FirstOffsetMinutes = firstOffset;
        Transitions = transitions;
    }

    /// <summary>The name of the zone in the zone data.</summary>
    public string Name { get; }

    /// <summary>The version of the zone data that was frozen.</summary>
    public string DataVersion { get; }

    /// <summary>How far clocks were ahead of UTC before the first transition.</summary>
    public int FirstOffsetMinutes { get; }

    /// <summary>The moments at which clocks were moved, oldest first.</summary>
    public ImmutableArray<ZoneTransition> Transitions { get; }

    /// <summary>A zone from its frozen description; refused when it contradicts itself.</summary>
    /// <param name="name">The name of the zone, 1 to 64 characters.</param>
    /// <param name="dataVersion">The version of the zone data, 1 to 64 characters.</param>
    /// <param name="firstOffsetMinutes">How far clocks were ahead of UTC before the first transition, within a day.</param>
    /// <param name="transitions">At most 1000, each later than the one before it, offsets within a day.</param>
    public static Parsed<SiteZone> Of(
        string name,
        string dataVersion,
        int firstOffsetMinutes,
        ImmutableArray<ZoneTransition> transitions
    )
    {
        ArgumentNullException.ThrowIfNull(name);
        ArgumentNullException.ThrowIfNull(dataVersion);
        ImmutableArray<ZoneTransition> moves = transitions.IsDefault ? [] : transitions;
        return FirstProblem(name, dataVersion, firstOffsetMinutes, moves) is { } failure
            ? Parsed<SiteZone>.Refused(failure)
            : Parsed<SiteZone>.Of(new(name, dataVersion, firstOffsetMinutes, moves));
    }

    /// <summary>Which moment a wall-clock time was in this zone: one, one of two, or none.</summary>
    /// <param name="time">A time that was written without offset.</param>
    public ResolvedTime InstantOf(RecordedTime.LocalTime time)
    {
        ArgumentNullException.ThrowIfNull(time);
        List<Moment> moments = [];
        for (int period = FirstPeriodNear(time.Face); period <= Transitions.Length; period++)
        {
            if (Moment.Of(time.Face, OffsetOf(period)) is { } moment && PeriodOf(moment) == period)
            {
                moments.Add(moment);
            }

            if (IsWellAfter(period, time.Face))
            {
                break;
            }
        }

        return moments switch
        {
            [] => new ResolvedTime.Nonexistent(),
            [Moment only] => new ResolvedTime.Unique(only),
            [Moment earliest, .., Moment latest] => new ResolvedTime.Ambiguous(earliest, latest),
        };
    }

    /// <summary>How far wall clocks are ahead of UTC at a moment, in minutes.</summary>
    /// <param name="moment">Any moment.</param>
    public int OffsetMinutesAt(Moment moment) => OffsetOf(PeriodOf(moment));

    /// <summary>A moment as the wall clock of the site shows it, with its offset: <c>2026-07-01T13:00:00+01:00</c>.</summary>
    /// <param name="moment">Any moment.</param>
    public string Print(Moment moment)
    {
        int offset = OffsetMinutesAt(moment);
        (int hours, int minutes) = Math.DivRem(Math.Abs(offset), 60);
        return string.Create(
            CultureInfo.InvariantCulture,
            $"{moment.FaceAt(offset)}{(offset < 0 ? '-' : '+')}{hours:00}:{minutes:00}"
        );
    }

    /// <summary>The day that the wall clock of the site shows at a recorded time; a time without offset is its own.</summary>
    /// <param name="time">Any recorded time.</param>
    public DateOnly DayOf(RecordedTime time)
    {
        ArgumentNullException.ThrowIfNull(time);
        ClockFace face = time is RecordedTime.Instant { Moment: var moment }
            ? moment.FaceAt(OffsetMinutesAt(moment))
            : time.Face;
        return DateOnly.FromDateTime(face.Clock);
    }

    /// <summary>Whether both describe the same wall clock by the same data.</summary>
    public bool Equals(SiteZone? other) =>
        other is not null
        && Name == other.Name
        && DataVersion == other.DataVersion
        && FirstOffsetMinutes == other.FirstOffsetMinutes
        && Transitions.SequenceEqual(other.Transitions);

    /// <inheritdoc/>
    public override int GetHashCode() =>
        HashCode.Combine(Name, DataVersion, FirstOffsetMinutes, Transitions.Length);

    private static ParseFailure? FirstProblem(
        string name,
        string version,
        int firstOffset,
        ImmutableArray<ZoneTransition> transitions
    )
    {
        string lengths = string.Create(CultureInfo.InvariantCulture, $"1 to {LongestName} characters");
        if (name.Length is 0 or > LongestName)
        {
            return ParseFailure.Because("is not a name of a zone", name, lengths);
        }

        if (version.Length is 0 or > LongestName)
        {
            return ParseFailure.Because("is not a version of zone data", version, lengths);
        }

        if (transitions.Length > MostTransitions)
        {
            return ParseFailure.Because(
                "are too many transitions",
                transitions.Length.ToString(CultureInfo.InvariantCulture),
                $"at most {MostTransitions}"
            );
        }

        foreach (int offset in transitions.Select(move => move.OffsetMinutes).Prepend(firstOffset))
        {
            if (offset is < -LargestOffset or > LargestOffset)
            {
                return ParseFailure.Because(
                    "is an offset of a day or more",
                    offset.ToString(CultureInfo.InvariantCulture),
                    $"minutes from -{LargestOffset} to {LargestOffset}"
                );
            }
        }

        for (int later = 1; later < transitions.Length; later++)
        {
            if (transitions[later].At <= transitions[later - 1].At)
            {
                return ParseFailure.Because(
                    "does not follow the transition before it",
                    transitions[later].At.ToString(),
                    $"a moment after {transitions[later - 1].At}"
                );
            }
        }

        return null;
    }

    /// <summary>Periods count the stretches of one offset: 0 before the first transition.</summary>
    private int OffsetOf(int period) =>
        period == 0 ? FirstOffsetMinutes : Transitions[period - 1].OffsetMinutes;

    private int PeriodOf(Moment moment)
    {
        int low = 0;
        int high = Transitions.Length;
        while (low < high)
        {
            int middle = (low + high) / 2;
            (low, high) = Transitions[middle].At <= moment ? (middle + 1, high) : (low, middle);
        }

        return low;
    }

    // No offset reaches a day, so only periods that touch the day before or after the face can hold it.
    private int FirstPeriodNear(ClockFace face) =>
        PeriodOf(Moment.From(new DateTimeOffset(face.Clock.AddDays(-1), TimeSpan.Zero)));

    private bool IsWellAfter(int period, ClockFace face) =>
        period > 0 && Transitions[period - 1].At.Utc.DateTime > face.Clock.AddDays(1);
}
