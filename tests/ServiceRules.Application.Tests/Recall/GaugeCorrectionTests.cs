using ServiceRules.Application.Recall;
using ServiceRules.Domain;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.Tests.Recall;

public sealed class GaugeCorrectionTests
{
    private static readonly Id<Instrument> Gauge = new("G-1");
    private static readonly Id<Instrument> Other = new("G-2");

    private static PrintedLength Length(string text) => PrintedLength.Parse(text).OrThrow();

    private static Reading Measured(string value, Id<Instrument> with) =>
        new()
        {
            Quantity = MeasuredQuantity.ReelDiameter,
            Observed = new Observation.Measured(Length(value)),
            Instrument = with,
        };

    private static ServiceRecord Record(Instrument gauge, params BenchEntry[] entries) =>
        new()
        {
            Id = new("J-1"),
            Date = new(2026, 4, 13),
            Machine = new(new("M-1"), null, null),
            Tasks = [ServiceTask.Inspect],
            People = [new(new("tech-01"), JobRole.Performs)],
            Instruments = [gauge],
            Units =
            [
                new()
                {
                    Id = new("U-1"),
                    Sheet = "reel-125-9-510",
                    Entries = [.. entries],
                },
            ],
        };

    private static Instrument Tape { get; } =
        new()
        {
            Id = Gauge,
            Kind = InstrumentKind.DiameterTape,
            Calibration = new(new(2026, 1, 1), new(2027, 1, 1), Length("0.04 mm"), 2),
        };

    private static FoundError Found(string error, string? doubt = null, string? leaf = null) =>
        new()
        {
            Instrument = Gauge,
            Error = Length(error),
            Uncertainty = doubt is null ? null : Length(doubt),
            Leaf = leaf is null ? null : Length(leaf),
        };

    private static string Value(ServiceRecord record, int entry) =>
        ((Observation.Measured)((Reading)record.Units[0].Entries[entry]).Observed).Value.ToString();

    [Fact]
    public void Of_ReadingsWithItAndWithAnother_TakesTheErrorFromItsOwnAlone()
    {
        var record = Record(Tape, Measured("124.58 mm", Gauge), Measured("124.58 mm", Other));

        var corrected = new GaugeCorrection(Found("0.06 mm")).Of(record, 1m);

        Assert.Equal(("124.52 mm", "124.58 mm"), (Value(corrected, 0), Value(corrected, 1)));
    }

    [Fact]
    public void Of_HalfTheError_TakesHalf() =>
        Assert.Equal(
            "124.550 mm",
            Value(
                new GaugeCorrection(Found("0.06 mm")).Of(Record(Tape, Measured("124.58 mm", Gauge)), 0.5m),
                0
            )
        );

    /// <summary>0.0254 mm is 0.001 in exactly: the reading stays one in inches.</summary>
    [Fact]
    public void Of_ReadingInInchesErrorInMillimetres_StaysInInches() =>
        Assert.Equal(
            "4.911 in",
            Value(
                new GaugeCorrection(Found("0.0254 mm")).Of(Record(Tape, Measured("4.912 in", Gauge)), 1m),
                0
            )
        );

    [Fact]
    public void Of_GrindingReadWithIt_TakesTheErrorFromBothSizes()
    {
        var record = Record(
            Tape,
            Measured("124.58 mm", Gauge),
            new Grinding
            {
                Kind = GrindingKind.ReelSpin,
                Before = Length("124.50 mm"),
                After = Length("124.30 mm"),
            },
            new Grinding { Kind = GrindingKind.BedknifeTop, Before = Length("7.50 mm") }
        );

        var entries = new GaugeCorrection(Found("0.10 mm")).Of(record, 1m).Units[0].Entries;

        var reel = (Grinding)entries[1];
        Assert.Equal(("124.40 mm", "124.20 mm"), (reel.Before!.ToString(), reel.After!.ToString()));
        Assert.Equal("7.50 mm", ((Grinding)entries[2]).Before!.ToString());
    }

    [Fact]
    public void Of_OneLeafOfASetOfFeelers_CorrectsThatLeafAlone()
    {
        var feelers = new Instrument
        {
            Id = Gauge,
            Kind = InstrumentKind.FeelerGauge,
            Tolerance = Length("0.0001 in"),
        };
        var tried = new Reading
        {
            Quantity = MeasuredQuantity.Clearance,
            Observed = new Observation.FeelerTest([Length("0.001 in"), Length("0.0015 in")], true),
            Instrument = Gauge,
        };
        var found = Found("0.0002 in", doubt: "0.0001 in", leaf: "0.001 in");

        var corrected = new GaugeCorrection(found).Of(Record(feelers, tried), 1m);

        var test = (Observation.FeelerTest)((Reading)corrected.Units[0].Entries[0]).Observed;
        Assert.Equal(["0.0008 in", "0.0015 in"], test.Feelers.Select(leaf => leaf.ToString()));
        Assert.Equal("0.0002 in", corrected.Instruments[0].Tolerance!.ToString());
    }

    /// <summary>u = 0.04/2 = 0.02 and 0.03/2 = 0.015 make 0.025, so U = 0.05 with k = 2.</summary>
    [Fact]
    public void Of_ErrorWithDoubt_AddsItToTheCalibration()
    {
        var record = Record(Tape, Measured("124.58 mm", Gauge));

        var gauge = new GaugeCorrection(Found("0.06 mm", doubt: "0.03 mm")).Of(record, 1m).Instruments[0];

        Assert.Equal(Length("0.05 mm").Value, gauge.Calibration!.ExpandedUncertainty.Value);
        Assert.Equal(2m, gauge.Calibration.CoverageFactor);
    }

    /// <summary>
    /// The gauge states no step: the two decimals that were read are its step, not those of the sum; a tape's digits claim no
    /// less than 0.1 mm (common practice, no source).
    /// </summary>
    [Theory]
    [InlineData(InstrumentKind.Calliper, "0.01 mm")]
    [InlineData(InstrumentKind.DiameterTape, "0.1 mm")]
    public void Of_GaugeWithoutStatedStep_KeepsTheStepOfWhatWasRead(InstrumentKind kind, string step)
    {
        var gauge = new GaugeCorrection(Found("0.0625 mm"))
            .Of(Record(Tape with { Kind = kind }, Measured("124.58 mm", Gauge)), 1m)
            .Instruments[0];

        Assert.Equal(Length(step).Value, gauge.Resolution!.Value);
    }

    [Fact]
    public void Of_GaugeOfWhichNothingIsKnown_LearnsNothing()
    {
        var unknown = new Instrument { Id = Gauge, Kind = InstrumentKind.DiameterTape };

        var gauge = new GaugeCorrection(Found("0.06 mm", doubt: "0.01 mm"))
            .Of(Record(unknown, Measured("124.58 mm", Gauge)), 1m)
            .Instruments[0];

        Assert.Equal(unknown, gauge);
    }

    /// <summary>The zero went from 0.06 to 0.07 mm during the job: the 0.01 mm that it moved stays.</summary>
    [Fact]
    public void Of_ZeroChecksBeforeAndAfter_KeepsWhatTheZeroMoved()
    {
        var record = Record(
            Tape with
            {
                ZeroCheck = new(Length("0.06 mm"), null),
                ZeroCheckAfter = new(Length("0.07 mm"), null),
            },
            Measured("124.58 mm", Gauge)
        );

        var gauge = new GaugeCorrection(Found("0.06 mm")).Of(record, 1m).Instruments[0];

        // About nothing, since what it read too high has been taken out of its readings.
        Assert.Equal(Length("-0.005 mm").Value, gauge.ZeroCheck!.Error.Value);
        Assert.Equal(Length("0.005 mm").Value, gauge.ZeroCheckAfter!.Error.Value);
    }

    [Fact]
    public void Of_CertificateThatStatesALevel_SumsBothDoubtsWithAFactor()
    {
        var record = Record(
            Tape with
            {
                Calibration = Calibration.AtLevel(
                    new(2026, 1, 1),
                    new(2027, 1, 1),
                    Length("0.04 mm"),
                    CoverageLevel.TwoSigma,
                    null
                ),
            },
            Measured("124.58 mm", Gauge)
        );

        var calibration = new GaugeCorrection(Found("0.06 mm", doubt: "0.03 mm"))
            .Of(record, 1m)
            .Instruments[0]
            .Calibration!;

        Assert.Null(calibration.Level);
        Assert.Equal(2m, calibration.CoverageFactor);
        Assert.Equal(0.05m, decimal.Round(calibration.ExpandedUncertainty.Value.Millimetres, 6));
    }
}
