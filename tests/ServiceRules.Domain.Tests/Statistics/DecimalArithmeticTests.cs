using FsCheck.Xunit;
using ServiceRules.Domain.Statistics;
using ServiceRules.Domain.Tests.Quantities;

namespace ServiceRules.Domain.Tests.Statistics;

public sealed class DecimalArithmeticTests
{
    [Theory]
    [InlineData("0", "0")]
    [InlineData("4", "2")]
    [InlineData("0.0000000000000000000000000001", "0.00000000000001")]
    [InlineData("2", "1.4142135623730950488016887242")]
    [InlineData("10", "3.1622776601683793319988935444")]
    [InlineData("1000000000000000000000000", "1000000000000")]
    public void SquareRoot_OfADecimal_HasAllItsDigits(string value, string expected)
    {
        var root = DecimalArithmetic.SquareRoot(Exact.Of(value));

        ReferenceNumber.Near(1m, Exact.Of(expected) == 0 ? root + 1 : root / Exact.Of(expected), 1e-26m);
    }

    [Fact]
    public void SquareRoot_OfANegativeNumber_IsRefused() =>
        Assert.Throws<ArgumentOutOfRangeException>(() => DecimalArithmetic.SquareRoot(-1m));

    [Theory]
    [InlineData("1e-15")]
    [InlineData("1")]
    [InlineData("1e20")]
    public void Norm_OfASmallOrLargePair_KeepsItsDigits(string unit)
    {
        var scale = decimal.Parse(
            unit,
            System.Globalization.NumberStyles.Float,
            System.Globalization.CultureInfo.InvariantCulture
        );

        ReferenceNumber.Near(5m, DecimalArithmetic.Norm([3 * scale, -4 * scale]) / scale, 1e-12m);
    }

    [Property(MaxTest = PropertyCases.Each)]
    public void Norm_OfOneNumber_IsItsSize(decimal value)
    {
        if (value == 0)
        {
            Assert.Equal(0m, DecimalArithmetic.Norm([value]));
            return;
        }

        ReferenceNumber.Near(1m, DecimalArithmetic.Norm([value]) / Math.Abs(value), 1e-24m);
    }
}
