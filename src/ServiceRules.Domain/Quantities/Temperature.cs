namespace ServiceRules.Domain.Quantities;

/// <summary>
/// A temperature of a workshop in degrees Celsius or Fahrenheit. Equality and order are by value; the print is kept.
/// </summary>
public readonly record struct Temperature : IComparable<Temperature>
{
    /// <summary>The forms that are read, in words for a message.</summary>
    public const string AcceptedForms =
        "a number, one space and degC or degF, from -20 to 50 degC, such as `24 degC` or `75 degF`";

    private const decimal Least = -20m;
    private const decimal Most = 50m;
    private const decimal FreezingFahrenheit = 32m;

    private readonly PrintedNumber figure;
    private readonly bool isFahrenheit;

    private Temperature(PrintedNumber figure, bool isFahrenheit)
    {
        this.figure = figure;
        this.isFahrenheit = isFahrenheit;
    }

    /// <summary>In degrees Celsius; from Fahrenheit (t - 32)·5/9, divided in 28 digits.</summary>
    public decimal DegreesCelsius =>
        isFahrenheit ? (figure.Value - FreezingFahrenheit) * 5m / 9m : figure.Value;

    /// <summary>Reads a temperature with its unit: <c>24 degC</c>, <c>75 degF</c>.</summary>
    /// <param name="text">A number of at most 12 digits, exactly one space, a unit.</param>
    public static Parsed<Temperature> Parse(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (!QuantityText.TryRead(text, out PrintedNumber number, out string unit, out string problem))
        {
            return Refused(problem, text);
        }

        if (unit is not ("degC" or "degF"))
        {
            return Refused("has no unit of temperature that is known here", text);
        }

        Temperature temperature = new(number, unit is "degF");
        return temperature.DegreesCelsius is < Least or > Most
            ? Refused("is no temperature that people work in", text)
            : Parsed<Temperature>.Of(temperature);
    }

    /// <summary>Whether the left temperature is lower.</summary>
    public static bool operator <(Temperature left, Temperature right) => left.CompareTo(right) < 0;

    /// <summary>Whether the left temperature is higher.</summary>
    public static bool operator >(Temperature left, Temperature right) => left.CompareTo(right) > 0;

    /// <summary>Whether the left temperature is at most the right one.</summary>
    public static bool operator <=(Temperature left, Temperature right) => left.CompareTo(right) <= 0;

    /// <summary>Whether the left temperature is at least the right one.</summary>
    public static bool operator >=(Temperature left, Temperature right) => left.CompareTo(right) >= 0;

    /// <inheritdoc/>
    public int CompareTo(Temperature other) => DegreesCelsius.CompareTo(other.DegreesCelsius);

    /// <summary>Whether both are the same temperature, whatever the unit.</summary>
    public bool Equals(Temperature other) => DegreesCelsius == other.DegreesCelsius;

    /// <inheritdoc/>
    public override int GetHashCode() => DegreesCelsius.GetHashCode();

    /// <summary>The print, which reads back as the same print: <c>24 degC</c>.</summary>
    public override string ToString() => $"{figure} {(isFahrenheit ? "degF" : "degC")}";

    private static Parsed<Temperature> Refused(string problem, string text) =>
        Parsed<Temperature>.Refused(ParseFailure.Because(problem, text, AcceptedForms));
}
