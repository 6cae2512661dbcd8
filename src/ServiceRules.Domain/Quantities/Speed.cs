namespace ServiceRules.Domain.Quantities;

/// <summary>
/// A ground speed: more than 0 and at most 100 km/h. Equality and order are by value, exact across units; the
/// printed digits and unit are kept for display.
/// </summary>
public readonly record struct Speed : IComparable<Speed>
{
    /// <summary>The forms that are read, in words for a message.</summary>
    public const string AcceptedForms =
        "a number above 0 up to 100 km/h, one space and km/h, mph or m/min, such as `6 km/h`, `3.8 mph` or `100 m/min`";

    // No machine mows near this; a figure beyond it is a slip of unit or of a decimal point.
    private const decimal MostMetresPerHour = 100_000m;

    private readonly PrintedNumber figure;

    private Speed(PrintedNumber figure, SpeedUnit unit)
    {
        this.figure = figure;
        Unit = unit;
    }

    /// <summary>The unit in which it is printed.</summary>
    public SpeedUnit Unit { get; }

    /// <summary>The speed in metres per hour, exactly.</summary>
    public decimal MetresPerHour => figure.Value * Unit.MetresPerHour();

    /// <summary>Reads a speed with its unit: <c>6 km/h</c>, <c>3.8 mph</c>, <c>100 m/min</c>.</summary>
    /// <param name="text">A number of at most 12 digits, exactly one space, a unit.</param>
    public static Parsed<Speed> Parse(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (!QuantityText.TryRead(text, out PrintedNumber number, out string symbol, out string problem))
        {
            return Refused(problem, text);
        }

        if (SpeedUnits.Named(symbol) is not { } unit)
        {
            return Refused("has no unit of speed that is known here", text);
        }

        if (number.Value <= 0m)
        {
            return Refused("is not a speed of going forward", text);
        }

        Speed speed = new(number, unit);
        return speed.MetresPerHour > MostMetresPerHour
            ? Refused("is faster than 100 km/h", text)
            : Parsed<Speed>.Of(speed);
    }

    /// <summary>Whether the left speed is less than the right one.</summary>
    public static bool operator <(Speed left, Speed right) => left.CompareTo(right) < 0;

    /// <summary>Whether the left speed is greater than the right one.</summary>
    public static bool operator >(Speed left, Speed right) => left.CompareTo(right) > 0;

    /// <summary>Whether the left speed is at most the right one.</summary>
    public static bool operator <=(Speed left, Speed right) => left.CompareTo(right) <= 0;

    /// <summary>Whether the left speed is at least the right one.</summary>
    public static bool operator >=(Speed left, Speed right) => left.CompareTo(right) >= 0;

    /// <inheritdoc/>
    public int CompareTo(Speed other) => MetresPerHour.CompareTo(other.MetresPerHour);

    /// <summary>Whether both are the same speed, whatever the unit.</summary>
    public bool Equals(Speed other) => MetresPerHour == other.MetresPerHour;

    /// <inheritdoc/>
    public override int GetHashCode() => MetresPerHour.GetHashCode();

    /// <summary>The print, which reads back as the same print: <c>6 km/h</c>.</summary>
    public override string ToString() => $"{figure} {Unit.Symbol()}";

    /// <summary>
    /// A computed speed in a unit, rounded down to a whole last digit: a highest speed never reads faster than it is. None
    /// where nothing goes so slow or so fast.
    /// </summary>
    internal static Speed? RoundedDown(decimal metresPerHour, SpeedUnit unit, int decimals)
    {
        if (metresPerHour is <= 0m or > MostMetresPerHour)
        {
            return null;
        }

        decimal scale = PowerOfTen(decimals);
        decimal figure = decimal.Floor(metresPerHour / unit.MetresPerHour() * scale) / scale;
        return figure > 0m ? new(PrintedNumber.Of(figure), unit) : null;
    }

    private static decimal PowerOfTen(int decimals) => decimals == 0 ? 1m : 10m * PowerOfTen(decimals - 1);

    private static Parsed<Speed> Refused(string problem, string text) =>
        Parsed<Speed>.Refused(ParseFailure.Because(problem, text, AcceptedForms));
}
