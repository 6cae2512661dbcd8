namespace ServiceRules.Domain.Quantities;

/// <summary>
/// What an hour meter shows, from 0 to 1 000 000 h. Equality and order are by value; the printed digits are
/// kept for display.
/// </summary>
public readonly record struct OperatingHours : IComparable<OperatingHours>
{
    /// <summary>The form that is read, in words for a message.</summary>
    public const string AcceptedForm = "a number from 0 to 1000000, one space and h, such as `412.5 h`";

    // Beyond a century of running without a pause: a slip of the pen or of the decimal point.
    private const decimal Most = 1_000_000m;

    private OperatingHours(decimal hours) => Hours = hours;

    /// <summary>The reading in hours.</summary>
    public decimal Hours { get; }

    /// <summary>Reads an hour meter with its unit: <c>412.5 h</c>.</summary>
    /// <param name="text">A number of at most 12 digits, exactly one space, <c>h</c>.</param>
    public static Parsed<OperatingHours> Parse(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (!QuantityText.TryRead(text, out PrintedNumber number, out string unit, out string problem))
        {
            return Refused(problem, text);
        }

        return (unit, number.Value) switch
        {
            (not "h", _) => Refused("has no unit of operating time that is known here", text),
            (_, < 0m) => Refused("is below zero, which no hour meter shows", text),
            (_, > Most) => Refused("is more than any hour meter shows", text),
            _ => Parsed<OperatingHours>.Of(new(number.Value)),
        };
    }

    /// <summary>Whether the left reading is less than the right one.</summary>
    public static bool operator <(OperatingHours left, OperatingHours right) => left.Hours < right.Hours;

    /// <summary>Whether the left reading is greater than the right one.</summary>
    public static bool operator >(OperatingHours left, OperatingHours right) => left.Hours > right.Hours;

    /// <summary>Whether the left reading is at most the right one.</summary>
    public static bool operator <=(OperatingHours left, OperatingHours right) => left.Hours <= right.Hours;

    /// <summary>Whether the left reading is at least the right one.</summary>
    public static bool operator >=(OperatingHours left, OperatingHours right) => left.Hours >= right.Hours;

    /// <summary>The hours run between an earlier reading and this one; negative when the meter went back.</summary>
    public RunningTime Since(OperatingHours earlier) => RunningTime.FromHours(Hours - earlier.Hours);

    /// <inheritdoc/>
    public int CompareTo(OperatingHours other) => Hours.CompareTo(other.Hours);

    /// <summary>The print, which reads back as the same print: <c>412.5 h</c>.</summary>
    public override string ToString() => $"{PrintedNumber.Of(Hours)} h";

    private static Parsed<OperatingHours> Refused(string problem, string text) =>
        Parsed<OperatingHours>.Refused(ParseFailure.Because(problem, text, AcceptedForm));
}
