namespace ServiceRules.Domain.Quantities;

/// <summary>
/// A pressure above that of the surrounding air, as a gauge shows it, from 0 to 1000 bar. Equality and order
/// are by value, exact across units; the printed digits and unit are kept for display.
/// </summary>
public readonly record struct Pressure : IComparable<Pressure>
{
    /// <summary>The forms that are read, in words for a message.</summary>
    public const string AcceptedForms =
        "a number from 0 to 1000 bar, one space and bar, kPa or psi, such as `0 bar`, `350 kPa` or `50 psi`";

    private static readonly decimal Most = 1_000m * PressureUnit.Bar.NewtonsPerSquareInch();

    private readonly PrintedNumber figure;

    private Pressure(PrintedNumber figure, PressureUnit unit)
    {
        this.figure = figure;
        Unit = unit;
    }

    /// <summary>The unit in which it is printed.</summary>
    public PressureUnit Unit { get; }

    /// <summary>Whether the gauge shows no pressure at all.</summary>
    public bool IsZero => figure.Value == 0m;

    private decimal NewtonsPerSquareInch => figure.Value * Unit.NewtonsPerSquareInch();

    /// <summary>Reads a pressure with its unit: <c>0 bar</c>, <c>350 kPa</c>, <c>50 psi</c>.</summary>
    /// <param name="text">A number of at most 12 digits, exactly one space, a unit.</param>
    public static Parsed<Pressure> Parse(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (!QuantityText.TryRead(text, out PrintedNumber number, out string symbol, out string problem))
        {
            return Refused(problem, text);
        }

        if (PressureUnits.Named(symbol) is not { } unit)
        {
            return Refused("has no unit of pressure that is known here", text);
        }

        if (number.Value < 0m)
        {
            return Refused("is below zero, which is suction and not pressure", text);
        }

        Pressure pressure = new(number, unit);
        return pressure.NewtonsPerSquareInch > Most
            ? Refused("is more than 1000 bar", text)
            : Parsed<Pressure>.Of(pressure);
    }

    /// <summary>Whether the left pressure is less than the right one.</summary>
    public static bool operator <(Pressure left, Pressure right) => left.CompareTo(right) < 0;

    /// <summary>Whether the left pressure is greater than the right one.</summary>
    public static bool operator >(Pressure left, Pressure right) => left.CompareTo(right) > 0;

    /// <summary>Whether the left pressure is at most the right one.</summary>
    public static bool operator <=(Pressure left, Pressure right) => left.CompareTo(right) <= 0;

    /// <summary>Whether the left pressure is at least the right one.</summary>
    public static bool operator >=(Pressure left, Pressure right) => left.CompareTo(right) >= 0;

    /// <inheritdoc/>
    public int CompareTo(Pressure other) => NewtonsPerSquareInch.CompareTo(other.NewtonsPerSquareInch);

    /// <summary>Whether both are the same pressure, whatever the unit.</summary>
    public bool Equals(Pressure other) => NewtonsPerSquareInch == other.NewtonsPerSquareInch;

    /// <inheritdoc/>
    public override int GetHashCode() => NewtonsPerSquareInch.GetHashCode();

    /// <summary>The print, which reads back as the same print: <c>0 bar</c>.</summary>
    public override string ToString() => $"{figure} {Unit.Symbol()}";

    private static Parsed<Pressure> Refused(string problem, string text) =>
        Parsed<Pressure>.Refused(ParseFailure.Because(problem, text, AcceptedForms));
}
