namespace ServiceRules.Domain.Quantities;

/// <summary>
/// An angle in degrees, within a full turn either way. Equality and order are by value; the printed digits
/// are kept for display.
/// </summary>
public readonly record struct Angle : IComparable<Angle>
{
    /// <summary>The form that is read, in words for a message.</summary>
    public const string AcceptedForm = "a number within 360 either way, one space and deg, such as `30 deg`";

    private const decimal FullTurn = 360m;

    private Angle(decimal degrees) => Degrees = degrees;

    /// <summary>The angle in degrees.</summary>
    public decimal Degrees { get; }

    /// <summary>An angle given in degrees.</summary>
    public static Angle FromDegrees(decimal degrees) => new(degrees);

    /// <summary>Reads an angle with its unit: <c>30 deg</c>, <c>-0.5 deg</c>.</summary>
    /// <param name="text">A number of at most 12 digits, exactly one space, <c>deg</c>.</param>
    public static Parsed<Angle> Parse(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (!QuantityText.TryRead(text, out PrintedNumber number, out string unit, out string problem))
        {
            return Refused(problem, text);
        }

        if (unit is not "deg")
        {
            return Refused("has no unit of angle that is known here", text);
        }

        return Math.Abs(number.Value) > FullTurn
            ? Refused("is more than a full turn", text)
            : Parsed<Angle>.Of(new(number.Value));
    }

    /// <summary>Whether the left angle is less than the right one.</summary>
    public static bool operator <(Angle left, Angle right) => left.Degrees < right.Degrees;

    /// <summary>Whether the left angle is greater than the right one.</summary>
    public static bool operator >(Angle left, Angle right) => left.Degrees > right.Degrees;

    /// <summary>Whether the left angle is at most the right one.</summary>
    public static bool operator <=(Angle left, Angle right) => left.Degrees <= right.Degrees;

    /// <summary>Whether the left angle is at least the right one.</summary>
    public static bool operator >=(Angle left, Angle right) => left.Degrees >= right.Degrees;

    /// <inheritdoc/>
    public int CompareTo(Angle other) => Degrees.CompareTo(other.Degrees);

    /// <summary>The print, which reads back as the same print: <c>30 deg</c>.</summary>
    public override string ToString() => $"{PrintedNumber.Of(Degrees)} deg";

    private static Parsed<Angle> Refused(string problem, string text) =>
        Parsed<Angle>.Refused(ParseFailure.Because(problem, text, AcceptedForm));
}
