namespace ServiceRules.Domain.Quantities;

/// <summary>
/// How fast a reel turns: more than 0 and at most 10 000 rev/min. Equality and order are by value; the printed digits
/// are kept for display.
/// </summary>
public readonly record struct RotationRate : IComparable<RotationRate>
{
    /// <summary>The form that is read, in words for a message.</summary>
    public const string AcceptedForm =
        "a number above 0 up to 10000, one space and rev/min, such as `2200 rev/min`";

    private const decimal Most = 10_000m;

    private RotationRate(decimal revolutionsPerMinute) => RevolutionsPerMinute = revolutionsPerMinute;

    /// <summary>Turns in a minute.</summary>
    public decimal RevolutionsPerMinute { get; }

    /// <summary>Reads a rate with its unit: <c>2200 rev/min</c>.</summary>
    /// <param name="text">A number of at most 12 digits, exactly one space, <c>rev/min</c>.</param>
    public static Parsed<RotationRate> Parse(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (!QuantityText.TryRead(text, out PrintedNumber number, out string unit, out string problem))
        {
            return Refused(problem, text);
        }

        return (unit, number.Value) switch
        {
            (not "rev/min", _) => Refused("has no unit of turning that is known here", text),
            (_, <= 0m) => Refused("is not a speed of turning forward", text),
            (_, > Most) => Refused("is faster than any reel turns", text),
            _ => Parsed<RotationRate>.Of(new(number.Value)),
        };
    }

    /// <summary>Whether the left rate is less than the right one.</summary>
    public static bool operator <(RotationRate left, RotationRate right) => left.CompareTo(right) < 0;

    /// <summary>Whether the left rate is greater than the right one.</summary>
    public static bool operator >(RotationRate left, RotationRate right) => left.CompareTo(right) > 0;

    /// <summary>Whether the left rate is at most the right one.</summary>
    public static bool operator <=(RotationRate left, RotationRate right) => left.CompareTo(right) <= 0;

    /// <summary>Whether the left rate is at least the right one.</summary>
    public static bool operator >=(RotationRate left, RotationRate right) => left.CompareTo(right) >= 0;

    /// <inheritdoc/>
    public int CompareTo(RotationRate other) => RevolutionsPerMinute.CompareTo(other.RevolutionsPerMinute);

    /// <summary>The print, which reads back as the same print: <c>2200 rev/min</c>.</summary>
    public override string ToString() => $"{PrintedNumber.Of(RevolutionsPerMinute)} rev/min";

    /// <summary>
    /// A computed rate, rounded up to a whole multiple: a lowest rate never reads slower than it is. None where no reel
    /// turns so.
    /// </summary>
    internal static RotationRate? RoundedUp(decimal revolutionsPerMinute, decimal multiple) =>
        revolutionsPerMinute is > 0m and <= Most
        && decimal.Ceiling(revolutionsPerMinute / multiple) * multiple is <= Most and var rounded
            ? new(rounded)
            : null;

    private static Parsed<RotationRate> Refused(string problem, string text) =>
        Parsed<RotationRate>.Refused(ParseFailure.Because(problem, text, AcceptedForm));
}
