using System.Globalization;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Tests.Trade;

namespace ServiceRules.Domain.Tests.Quantities;

/// <summary>F40 of the trade reference: fractions of an inch in millimetres, as printed there.</summary>
public sealed class InchFractionTests
{
    [Fact]
    public void FromInches_FractionsOfF40_AreAsPrinted()
    {
        var formula = TradeFormula.Named("F40");

        formula.Print(
            "mm",
            formula
                .GivenRaw("inch")
                .EnumerateArray()
                .Select(each => each.GetString()!.Split('/'))
                .Select(parts => Length.FromInches(Number(parts[0]) / Number(parts[1])).Millimetres)
        );
    }

    private static decimal Number(string digits) => decimal.Parse(digits, CultureInfo.InvariantCulture);
}
