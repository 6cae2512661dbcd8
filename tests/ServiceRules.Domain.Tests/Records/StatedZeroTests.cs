using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Domain.Tests.Records;

public sealed class StatedZeroTests
{
    [Fact]
    public void The_error_is_exact_with_its_sign_and_of_two_checks_the_mean()
    {
        Assert.Equal(Mm(-0.0127m), StatedZero.ErrorOf(Gauge("-0.0005 in")));
        Assert.Equal(Mm(-0.00135m), StatedZero.ErrorOf(Gauge("-0.0005 in", "0.010 mm")));
        Assert.Equal(Mm(0.01135m), StatedZero.HalfApart(Gauge("-0.0005 in", "0.010 mm")));
        Assert.Equal(Length.Zero, StatedZero.ErrorOf(null));
        Assert.Equal(Length.Zero, StatedZero.ErrorOf(Gauge(null)));
    }

    [Fact]
    public void What_has_no_scale_has_no_zero() =>
        Assert.Equal(
            Length.Zero,
            StatedZero.ErrorOf(Gauge("0.010 mm") with { Kind = InstrumentKind.FixedSizePiece })
        );

    [Fact]
    public void An_error_of_nothing_was_set_and_not_read()
    {
        Assert.Equal(Length.Zero, StatedZero.StepRead(Gauge("0.00 mm", "0.00 mm")));
        Assert.Equal(Mm(0.01m), StatedZero.StepRead(Gauge("0.00 mm", "-0.01 mm")));
    }

    [Theory]
    [InlineData(0.00, 0.00, 0.0)]
    [InlineData(0.00, 0.01, 0.0028868)]
    [InlineData(0.003, 0.00, 0.0017321)]
    [InlineData(0.003, 0.01, 0.0033666)]
    [InlineData(0.003, 0.50, 0.0073324)]
    public void What_is_left_of_a_zero(double apart, double step, double u) =>
        Assert.Equal(
            (decimal)u,
            UncertaintyContribution
                .ZeroCheck(Mm((decimal)apart), Mm((decimal)step), Mm(0.0127m))
                .Uncertainty.Value.Millimetres
        );

    private static Instrument Gauge(string? before, string? after = null) =>
        new()
        {
            Id = new("HG-01"),
            Kind = InstrumentKind.HeightGauge,
            Resolution = Print("0.01 mm"),
            ZeroCheck = before is null ? null : new(Print(before), null),
            ZeroCheckAfter = after is null ? null : new(Print(after), null),
        };

    private static PrintedLength Print(string text) => PrintedLength.Parse(text).OrThrow();

    private static Length Mm(decimal millimetres) => Length.FromMillimetres(millimetres);
}
