using System.Globalization;

namespace ServiceRules.Domain.Quantities;

/// <summary>
/// How much a length changes for each hour run: negative where it shrinks. Exact in decimal millimetres per hour.
/// A text says how fast something wears, from 0 to 1 mm/h, without a sign.
/// </summary>
public readonly record struct WearRate : IComparable<WearRate>
{
    /// <summary>The forms that are read, in words for a message.</summary>
    public const string AcceptedForms =
        "a number from 0 to 1 mm/h, one space and mm/h or in/h, such as `0.0034 mm/h` or `0.0001 in/h`";

    private const decimal Most = 1m;

    private WearRate(decimal millimetresPerHour) => MillimetresPerHour = millimetresPerHour;

    /// <summary>Nothing changes.</summary>
    public static WearRate Zero => default;

    /// <summary>The change in millimetres for each hour.</summary>
    public decimal MillimetresPerHour { get; }

    /// <summary>A rate given in millimetres per hour.</summary>
    /// <param name="millimetresPerHour">Any sign.</param>
    public static WearRate FromMillimetresPerHour(decimal millimetresPerHour) => new(millimetresPerHour);

    /// <summary>A change of length over a time.</summary>
    /// <param name="change">Any sign.</param>
    /// <param name="over">Any time but none.</param>
    /// <exception cref="ArgumentOutOfRangeException">The time is zero.</exception>
    public static WearRate Of(Length change, RunningTime over)
    {
        ArgumentOutOfRangeException.ThrowIfZero(over.Hours);
        return new(change.Millimetres / over.Hours);
    }

    /// <summary>Reads a rate of wear with its unit: <c>0.0034 mm/h</c>, <c>0.0001 in/h</c>.</summary>
    /// <param name="text">A number of at most 12 digits, exactly one space, a unit.</param>
    public static Parsed<WearRate> Parse(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (!QuantityText.TryRead(text, out PrintedNumber number, out string unit, out string problem))
        {
            return Refused(problem, text);
        }

        decimal? factor = unit switch
        {
            "mm/h" => 1m,
            "in/h" => LengthUnit.Inch.Millimetres(),
            _ => null,
        };
        return (number.Value * factor) switch
        {
            null => Refused("has no unit of wear that is known here", text),
            < 0m => Refused("is below zero; wear is stated without a sign", text),
            > Most => Refused("is more than 1 mm in an hour", text),
            { } rate => Parsed<WearRate>.Of(new(rate)),
        };
    }

    /// <summary>The change that a rate makes over a time.</summary>
    public static Length operator *(WearRate rate, RunningTime time) =>
        Length.FromMillimetres(rate.MillimetresPerHour * time.Hours);

    /// <summary>Whether the left rate is less than the right one.</summary>
    public static bool operator <(WearRate left, WearRate right) => left.CompareTo(right) < 0;

    /// <summary>Whether the left rate is greater than the right one.</summary>
    public static bool operator >(WearRate left, WearRate right) => left.CompareTo(right) > 0;

    /// <summary>Whether the left rate is at most the right one.</summary>
    public static bool operator <=(WearRate left, WearRate right) => left.CompareTo(right) <= 0;

    /// <summary>Whether the left rate is at least the right one.</summary>
    public static bool operator >=(WearRate left, WearRate right) => left.CompareTo(right) >= 0;

    /// <inheritdoc/>
    public int CompareTo(WearRate other) => MillimetresPerHour.CompareTo(other.MillimetresPerHour);

    /// <summary>The rate in millimetres per hour with no more digits than it has: <c>0.0034 mm/h</c>.</summary>
    public override string ToString() =>
        MillimetresPerHour.ToString("0.############################", CultureInfo.InvariantCulture) + " mm/h";

    private static Parsed<WearRate> Refused(string problem, string text) =>
        Parsed<WearRate>.Refused(ParseFailure.Because(problem, text, AcceptedForms));
}
