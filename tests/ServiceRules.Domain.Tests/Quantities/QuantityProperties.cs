using System.Globalization;
using System.Numerics;
using FsCheck.Xunit;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Tests.Quantities;

[Properties(Arbitrary = [typeof(PrintedLengths)], MaxTest = PropertyCases.Each)]
public sealed class QuantityProperties
{
    [Property]
    public void Parse_OfItsOwnPrint_IsTheSamePrint(PrintedLength print) =>
        Assert.Equal(print, PrintedLength.Parse(print.ToString()).OrThrow());

    [Property]
    public void Parse_OfAnyQuantitysPrint_IsTheSameQuantity(int figure, byte decimals)
    {
        string number = ((1000 + Math.Abs(figure % 48_000)) / 1000m).ToString(
            $"F{decimals % 4}",
            CultureInfo.InvariantCulture
        );

        Same($"{number} deg", Angle.Parse);
        Same($"-{number} deg", Angle.Parse);
        Same($"{number} h", OperatingHours.Parse);
        Assert.All(new[] { "bar", "kPa", "psi" }, unit => Same($"{number} {unit}", Pressure.Parse));
        Assert.All(new[] { "km/h", "mph", "m/min" }, unit => Same($"{number} {unit}", Speed.Parse));
        Assert.All(new[] { "degC", "degF" }, unit => Same($"{number} {unit}", Temperature.Parse));
        Same($"{number} rev/min", RotationRate.Parse);

        static void Same<T>(string text, Func<string, Parsed<T>> parse)
            where T : notnull
        {
            T read = parse(text).OrThrow();

            Assert.Equal(text, read.ToString());
            Assert.Equal(read, parse(read.ToString()!).OrThrow());
        }
    }

    [Property]
    public void Value_OfAPrint_IsThatOfExactRationalArithmetic(PrintedLength print) =>
        Assert.Equal(FemtometresOf(print.ToString()), Femtometres(print.Value));

    [Property]
    public void Addition_InAnyOrder_GivesOneSum(PrintedLength[] prints)
    {
        Length forward = prints.Aggregate(Length.Zero, (sum, print) => sum + print.Value);
        Length backward = prints.Reverse().Aggregate(Length.Zero, (sum, print) => print.Value + sum);

        Assert.Equal(forward, backward);
        Assert.Equal(
            prints.Aggregate(BigInteger.Zero, (sum, print) => sum + FemtometresOf(print.ToString())),
            Femtometres(forward)
        );
    }

    [Property]
    public void Subtraction_OfWhatWasAdded_GivesTheLengthBack(PrintedLength left, PrintedLength right) =>
        Assert.Equal(left.Value, left.Value + right.Value - right.Value);

    [Property]
    public void CompareTo_TwoPrints_FollowsExactRationalArithmetic(PrintedLength left, PrintedLength right)
    {
        int expected = FemtometresOf(left.ToString()).CompareTo(FemtometresOf(right.ToString()));

        Assert.Equal(expected, left.Value.CompareTo(right.Value));
        Assert.Equal(expected < 0, left.Value < right.Value);
        Assert.Equal(expected == 0, left.Value == right.Value);
    }

    [Property]
    public void Parse_ThousandthsAndInches_AreTheSameLengths(int thousandths)
    {
        int bounded = thousandths % 3_900_000;
        Length spoken = PrintedLength.Parse($"{Invariant(bounded)} thou").OrThrow().Value;
        Length printed = PrintedLength.Of(bounded / 1000m, LengthUnit.Inch).OrThrow().Value;

        Assert.Equal(printed, spoken);
        Assert.Equal(bounded * 0.0254m, spoken.Millimetres);
    }

    [Property]
    public void Parse_MicrometresAndMillimetres_AreTheSameLengths(int micrometres)
    {
        int bounded = micrometres % 100_000_000;
        Length spoken = PrintedLength.Parse($"{Invariant(bounded)} um").OrThrow().Value;

        Assert.Equal(PrintedLength.Of(bounded / 1000m, LengthUnit.Millimetre).OrThrow().Value, spoken);
    }

    [Property]
    public void Agreement_OfAPrintWithItsOwnRounding_NeverDisagrees(PrintedLength print)
    {
        LengthUnit other = print.System is UnitSystem.Inch ? LengthUnit.Millimetre : LengthUnit.Inch;
        PrintedLength alternate = PrintedLength.Parse(print.Value.ToString(other, decimals: 4)).OrThrow();

        Assert.NotEqual(PrintAgreement.Disagrees, DualPrint.Of(print, alternate).OrThrow().Agreement);
    }

    [Property]
    public void Parse_AnyText_AnswersWithoutThrowing(string? text)
    {
        string given = text ?? string.Empty;

        bool read = PrintedLength.Parse(given).TryGet(out PrintedLength? print, out ParseFailure? failure);

        Assert.Equal(read, print is not null);
        Assert.Equal(read, failure is null);
        _ = Angle.Parse(given).ToString() + OperatingHours.Parse(given) + Pressure.Parse(given) + failure;
    }

    private static BigInteger Femtometres(Length length) => new(length.Millimetres * 1_000_000_000_000m);

    /// <summary>A second, slower reading of a print, in whole numbers only.</summary>
    private static BigInteger FemtometresOf(string print)
    {
        int unitAt = print.LastIndexOf(' ');
        BigInteger unit = print[(unitAt + 1)..] switch
        {
            "mm" => 1_000_000_000_000,
            "µm" => 1_000_000_000,
            "in" => 25_400_000_000_000,
            "thou" => 25_400_000_000,
            string other => throw new ArgumentException(other, nameof(print)),
        };
        string number = print[..unitAt].TrimStart('-');
        BigInteger magnitude = number.Contains('/', StringComparison.Ordinal)
            ? OfFraction(number, unit)
            : OfDecimal(number, unit);
        return print.StartsWith('-') ? -magnitude : magnitude;
    }

    private static BigInteger OfDecimal(string number, BigInteger unit)
    {
        int decimals = number.Contains('.', StringComparison.Ordinal)
            ? number.Length - number.IndexOf('.', StringComparison.Ordinal) - 1
            : 0;
        return Whole(number.Replace(".", string.Empty, StringComparison.Ordinal))
            * unit
            / BigInteger.Pow(10, decimals);
    }

    private static BigInteger OfFraction(string number, BigInteger unit)
    {
        string[] parts = number.Split(' ', '/');
        BigInteger whole = parts.Length == 3 ? Whole(parts[0]) : BigInteger.Zero;
        return (whole * unit) + (Whole(parts[^2]) * unit / Whole(parts[^1]));
    }

    private static BigInteger Whole(string digits) => BigInteger.Parse(digits, CultureInfo.InvariantCulture);

    private static string Invariant(int number) => number.ToString(CultureInfo.InvariantCulture);
}
