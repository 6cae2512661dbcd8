using System.Globalization;
using System.Text.RegularExpressions;

namespace ServiceRules.Domain.Quantities;

/// <summary>
/// A length as printed in a manual, shown by a gauge or spoken: it keeps its digits and its unit, because
/// they say how far the figure may have been rounded. Two prints are equal when they print alike;
/// <see cref="Value"/> compares the lengths. Within 100 m either way, at most 12 digits.
/// </summary>
public sealed partial record PrintedLength
{
    /// <summary>The forms that are read, in words for a message.</summary>
    public const string AcceptedForms =
        "a number, one space and mm, µm, um, in or thou, such as `0.050 mm`, `25 µm`, `0.040 in`, `2 thou` or `1 1/16 in`";

    private const int LargestDenominator = 128;

    // Nothing in this trade is longer; a figure beyond it is a slip of unit or of a decimal point.
    private static readonly Length Longest = Length.FromMillimetres(100_000m);

    private readonly string number;

    private PrintedLength(string number, LengthUnit unit, Length value, Length roundingHalfWidth)
    {
        this.number = number;
        Unit = unit;
        Value = value;
        RoundingHalfWidth = roundingHalfWidth;
    }

    /// <summary>The unit in which it is printed.</summary>
    public LengthUnit Unit { get; }

    /// <summary>Exactly the length that the print states.</summary>
    public Length Value { get; }

    /// <summary>
    /// How far the length behind the print may lie from it on either side: half a unit of the last printed
    /// digit; for a fraction, a quarter of the step of its denominator.
    /// </summary>
    public Length RoundingHalfWidth { get; }

    /// <summary>The system of units to which the print belongs.</summary>
    public UnitSystem System => Unit.System();

    /// <summary>Reads a length with its unit: <c>0.050 mm</c>, <c>25 µm</c>, <c>2 thou</c>, <c>1 1/16 in</c>.</summary>
    /// <param name="text">A number, exactly one space, a unit; fractions of an inch have denominators 2 to 128.</param>
    public static Parsed<PrintedLength> Parse(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (!QuantityText.TrySplit(text, out QuantityText halves, out string problem))
        {
            return Refused(problem, text);
        }

        if (LengthUnits.Named(halves.Unit) is not { } unit)
        {
            return Refused("has no unit of length that is known here", text);
        }

        if (halves.Number.Contains('/', StringComparison.Ordinal))
        {
            return ReadFraction(halves.Number, unit, text);
        }

        return PrintedNumber.TryRead(halves.Number, out PrintedNumber number, out problem)
            ? Bounded(Printed(number, unit), text)
            : Refused(problem, text);
    }

    /// <summary>The print of a decimal figure in a unit.</summary>
    /// <param name="figure">The figure; its trailing zeros count as printed digits.</param>
    /// <param name="unit">The unit of the figure.</param>
    public static Parsed<PrintedLength> Of(decimal figure, LengthUnit unit) =>
        Parse($"{PrintedNumber.Of(figure)} {unit.Symbol()}");

    /// <summary>The print, which reads back as the same print: <c>0.050 mm</c>, <c>1 1/16 in</c>.</summary>
    public override string ToString() => $"{number} {Unit.Symbol()}";

    private static Parsed<PrintedLength> ReadFraction(string text, LengthUnit unit, string whole)
    {
        if (unit is not LengthUnit.Inch)
        {
            return Refused("is a fraction, and only inches are written in fractions", whole);
        }

        Match match = FractionShape.Match(text);
        if (!match.Success)
        {
            return Refused("is not a fraction such as `1/16` or `1 1/16`", whole);
        }

        int inches = Integer(match.Groups["inches"]);
        int numerator = Integer(match.Groups["numerator"]);
        int denominator = Integer(match.Groups["denominator"]);
        if (
            denominator is < 2 or > LargestDenominator
            || !int.IsPow2(denominator)
            || numerator >= denominator
        )
        {
            return Refused(
                $"is not a proper fraction with a denominator of 2, 4, 8, 16, 32, 64 or {LargestDenominator}",
                whole
            );
        }

        decimal magnitude = inches + ((decimal)numerator / denominator);
        decimal signed = match.Groups["minus"].Success ? -magnitude : magnitude;
        decimal quarterStep = 1m / (4 * denominator);
        return Bounded(new(text, unit, Length.FromInches(signed), Length.FromInches(quarterStep)), whole);
    }

    private static int Integer(Group group) =>
        group.Success ? int.Parse(group.ValueSpan, NumberStyles.None, CultureInfo.InvariantCulture) : 0;

    private static PrintedLength Printed(PrintedNumber number, LengthUnit unit) =>
        new(
            number.ToString(),
            unit,
            Length.FromMillimetres(number.Value * unit.Millimetres()),
            Length.FromMillimetres(number.LastDigitUnit * 0.5m * unit.Millimetres())
        );

    private static Parsed<PrintedLength> Bounded(PrintedLength print, string text) =>
        print.Value.Abs > Longest ? Refused("is longer than 100 m", text) : Parsed<PrintedLength>.Of(print);

    private static Parsed<PrintedLength> Refused(string problem, string text) =>
        Parsed<PrintedLength>.Refused(ParseFailure.Because(problem, text, AcceptedForms));

    [GeneratedRegex(
        @"\A(?<minus>-)?((?<inches>[1-9][0-9]{0,3}) )?(?<numerator>[1-9][0-9]{0,2})/(?<denominator>[1-9][0-9]{0,2})\z",
        RegexOptions.ExplicitCapture
    )]
    private static partial Regex FractionShape { get; }
}
