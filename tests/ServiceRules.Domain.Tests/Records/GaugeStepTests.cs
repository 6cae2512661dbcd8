using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Domain.Tests.Records;

public sealed class GaugeStepTests
{
    private static PrintedLength L(string text) => PrintedLength.Parse(text).OrThrow();

    private static Instrument Gauge(InstrumentKind kind, string? resolution) =>
        new()
        {
            Id = new("G-1"),
            Kind = kind,
            Resolution = resolution is null ? null : L(resolution),
        };

    // 0.00001 in is 0.000254 mm; 0.0000039 in is 0.00009906 mm.
    [Theory]
    [InlineData(InstrumentKind.Micrometer, "0.00001 mm", 0.0001, true)]
    [InlineData(InstrumentKind.DialGauge, "0.0001 mm", 0.0001, false)]
    [InlineData(InstrumentKind.HeightGauge, "0.00009 mm", 0.0001, true)]
    [InlineData(InstrumentKind.DepthGauge, "0.00001 in", 0.000254, false)]
    [InlineData(InstrumentKind.DialGauge, "0.0000039 in", 0.0001, true)]
    [InlineData(InstrumentKind.Calliper, "0.0001 mm", 0.001, true)]
    [InlineData(InstrumentKind.Calliper, "0.001 mm", 0.001, false)]
    [InlineData(InstrumentKind.DiameterTape, "0.001 mm", 0.01, true)]
    [InlineData(InstrumentKind.DiameterTape, "0.01 mm", 0.01, false)]
    [InlineData(InstrumentKind.DiameterTape, "0.1 mm", 0.1, false)]
    [InlineData(InstrumentKind.FeelerGauge, "0.001 mm", 0.01, true)]
    public void Of_AStatedStep_IsNoFinerThanItsKindShows(
        InstrumentKind kind,
        string stated,
        double taken,
        bool isTooFine
    )
    {
        var gauge = Gauge(kind, stated);

        Assert.Equal((decimal)taken, GaugeStep.Of(gauge, L("1.0 mm")).Millimetres);
        Assert.Equal(isTooFine, GaugeStep.IsTooFine(gauge.Resolution, kind));
    }

    [Theory]
    [InlineData(InstrumentKind.HeightGauge, "0.000 mm", 0.01)]
    [InlineData(InstrumentKind.HeightGauge, "0.0 mm", 0.1)]
    [InlineData(InstrumentKind.HeightGauge, "0.00000 in", 0.0127)]
    [InlineData(InstrumentKind.DiameterTape, "0.000 mm", 0.1)]
    [InlineData(InstrumentKind.DiameterTape, "0.00000 in", 0.127)]
    public void Of_NoStatedStep_IsByTheDigitsAndNoFinerThanOrdinaryGauges(
        InstrumentKind kind,
        string written,
        double taken
    )
    {
        Assert.Equal((decimal)taken, GaugeStep.Of(Gauge(kind, null), L(written)).Millimetres);
        Assert.False(GaugeStep.IsTooFine(null, kind));
    }
}
