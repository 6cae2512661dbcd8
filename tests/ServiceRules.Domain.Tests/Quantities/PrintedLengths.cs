using FsCheck;
using FsCheck.Fluent;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Tests.Quantities;

/// <summary>Every kind of print that a sheet, a gauge or a person may give, with its digits.</summary>
public static class PrintedLengths
{
    private static readonly string[] Symbols = ["mm", "µm", "in", "thou"];

    public static Arbitrary<PrintedLength> Any() =>
        Gen.OneOf(Decimals(), Fractions()).Select(text => PrintedLength.Parse(text).OrThrow()).ToArbitrary();

    private static Gen<string> Decimals() =>
        from digits in Gen.Choose(-3_900_000, 3_900_000)
        from decimals in Gen.Choose(3, 8)
        from symbol in Gen.Elements(Symbols)
        select $"{new decimal(Math.Abs(digits), 0, 0, digits < 0, (byte)decimals)} {symbol}";

    private static Gen<string> Fractions() =>
        from inches in Gen.Choose(-200, 200)
        from power in Gen.Choose(1, 7)
        from numerator in Gen.Choose(1, (1 << power) - 1)
        select $"{(inches == 0 ? string.Empty : $"{inches} ")}{numerator}/{1 << power} in";
}
