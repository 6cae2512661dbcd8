using System.Globalization;

namespace ServiceRules.Domain.Quantities;

/// <summary>
/// Hours run: the difference of two readings of an hour meter, or hours still to run. Signed; equality and order are by
/// value. A text says from 0 to 1 000 000 h.
/// </summary>
public readonly record struct RunningTime : IComparable<RunningTime>
{
    private RunningTime(decimal hours) => Hours = hours;

    /// <summary>No time at all.</summary>
    public static RunningTime Zero => default;

    /// <summary>The time in hours.</summary>
    public decimal Hours { get; }

    /// <summary>A time given in hours.</summary>
    /// <param name="hours">Any sign.</param>
    public static RunningTime FromHours(decimal hours) => new(hours);

    /// <summary>Reads hours with their unit: <c>18 h</c>.</summary>
    /// <param name="text">A number of at most 12 digits, exactly one space, <c>h</c>.</param>
    public static Parsed<RunningTime> Parse(string text) =>
        OperatingHours.Parse(text).TryGet(out OperatingHours hours, out ParseFailure? failure)
            ? Parsed<RunningTime>.Of(new(hours.Hours))
            : Parsed<RunningTime>.Refused(failure);

    /// <summary>Both times together.</summary>
    public static RunningTime operator +(RunningTime left, RunningTime right) =>
        new(left.Hours + right.Hours);

    /// <summary>The signed difference of two times.</summary>
    public static RunningTime operator -(RunningTime left, RunningTime right) =>
        new(left.Hours - right.Hours);

    /// <summary>Whether the left time is less than the right one.</summary>
    public static bool operator <(RunningTime left, RunningTime right) => left.Hours < right.Hours;

    /// <summary>Whether the left time is greater than the right one.</summary>
    public static bool operator >(RunningTime left, RunningTime right) => left.Hours > right.Hours;

    /// <summary>Whether the left time is at most the right one.</summary>
    public static bool operator <=(RunningTime left, RunningTime right) => left.Hours <= right.Hours;

    /// <summary>Whether the left time is at least the right one.</summary>
    public static bool operator >=(RunningTime left, RunningTime right) => left.Hours >= right.Hours;

    /// <inheritdoc/>
    public int CompareTo(RunningTime other) => Hours.CompareTo(other.Hours);

    /// <summary>The time in hours with no more digits than it has: <c>18.5 h</c>.</summary>
    public override string ToString() =>
        Hours.ToString("0.############################", CultureInfo.InvariantCulture) + " h";
}
