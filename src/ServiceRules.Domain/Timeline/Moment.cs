namespace ServiceRules.Domain.Timeline;

/// <summary>
/// A point on the UTC scale, exact to 100 ns. A leap second keeps a place of its own: after every fraction of
/// second 59 and before the next minute. Elapsed time counts days of 86 400 s, as clocks do.
/// </summary>
public readonly record struct Moment : IComparable<Moment>
{
    private readonly DateTime clock;

    private Moment(DateTime clock, bool isLeapSecond)
    {
        this.clock = clock;
        IsLeapSecond = isLeapSecond;
    }

    /// <summary>Whether the clock stood at second 60.</summary>
    public bool IsLeapSecond { get; }

    /// <summary>
    /// The nearest moment that a plain clock can show: the same one, or for a leap second the start of the
    /// minute after it.
    /// </summary>
    public DateTimeOffset Utc => new(IsLeapSecond ? EndOfMinute(clock) : clock, TimeSpan.Zero);

    /// <summary>The moment that a clock with an offset shows.</summary>
    /// <param name="time">Any time with its offset.</param>
    public static Moment From(DateTimeOffset time) =>
        new(DateTime.SpecifyKind(time.UtcDateTime, DateTimeKind.Unspecified), false);

    /// <summary>The time from the right moment to the left one, negative when the left is earlier.</summary>
    public static TimeSpan operator -(Moment left, Moment right) => left.Utc - right.Utc;

    /// <summary>The moment a given time later.</summary>
    public static Moment operator +(Moment moment, TimeSpan later) => From(moment.Utc + later);

    /// <summary>Whether the left moment is before the right one.</summary>
    public static bool operator <(Moment left, Moment right) => left.CompareTo(right) < 0;

    /// <summary>Whether the left moment is after the right one.</summary>
    public static bool operator >(Moment left, Moment right) => left.CompareTo(right) > 0;

    /// <summary>Whether the left moment is not after the right one.</summary>
    public static bool operator <=(Moment left, Moment right) => left.CompareTo(right) <= 0;

    /// <summary>Whether the left moment is not before the right one.</summary>
    public static bool operator >=(Moment left, Moment right) => left.CompareTo(right) >= 0;

    /// <inheritdoc/>
    public int CompareTo(Moment other)
    {
        int bySecond = (clock.Ticks / TimeSpan.TicksPerSecond).CompareTo(
            other.clock.Ticks / TimeSpan.TicksPerSecond
        );
        int byLeap = bySecond != 0 ? bySecond : IsLeapSecond.CompareTo(other.IsLeapSecond);
        return byLeap != 0 ? byLeap : clock.Ticks.CompareTo(other.clock.Ticks);
    }

    /// <summary>The moment in the form of RFC 3339 with <c>Z</c>: <c>2026-03-01T12:00:00.5Z</c>.</summary>
    public override string ToString() => new ClockFace(clock, IsLeapSecond) + "Z";

    /// <summary>
    /// The moment when a clock some minutes ahead of UTC shows a face, or none when the face shows second 60
    /// where UTC cannot have a leap second: RFC 3339 section 5.7 puts it at the end of a month.
    /// </summary>
    internal static Moment? Of(ClockFace face, int offsetMinutes)
    {
        DateTime utc = face.Clock - TimeSpan.FromMinutes(offsetMinutes);
        return face.IsLeapSecond && EndOfMinute(utc) is not { Day: 1, Hour: 0, Minute: 0 }
            ? null
            : new Moment(utc, face.IsLeapSecond);
    }

    /// <summary>What a clock some minutes ahead of UTC shows at this moment.</summary>
    internal ClockFace FaceAt(int offsetMinutes) =>
        new(clock + TimeSpan.FromMinutes(offsetMinutes), IsLeapSecond);

    private static DateTime EndOfMinute(DateTime clock) =>
        new DateTime(
            clock.Ticks - (clock.Ticks % TimeSpan.TicksPerMinute),
            DateTimeKind.Unspecified
        ).AddMinutes(1);
}
