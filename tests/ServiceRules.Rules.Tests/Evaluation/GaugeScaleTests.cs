using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.GaugeTests;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation;

/// <summary>What a gauge leaves unsaid of its step and its scale, and what may be taken for it.</summary>
public sealed class GaugeScaleTests
{
    /// <summary>Where nobody says what step a gauge shows, its digits decide; the finding says so.</summary>
    [Fact]
    public void Evaluate_AGaugeWithoutAResolution_SaysThatItsDigitsStandForTheStep()
    {
        var silent = First with { Resolution = null };

        Assert.Contains(
            "gauge HG-01 states no resolution: the last digit written down, 0.10 mm, is taken for the step that it shows",
            Assert.Single(Judged([silent], Height("left", "4.0 mm"), Height("right", "4.0 mm")).Notices),
            StringComparison.Ordinal
        );
        Assert.DoesNotContain(
            Judged([First], Height("left", "4.000 mm"), Height("right", "4.000 mm")).Notices,
            notice => notice.Contains("resolution", StringComparison.Ordinal)
        );
    }

    /// <summary>
    /// Of a gauge that states neither certificate nor resolution 0.01 mm is taken however many zeros are written, of a tape 0.1 mm,
    /// in inches 0.0005 and 0.005 in: u² = q²/12 + (2q)²/3 + (q/2)², the last for want of a repeatability: u = q·1.290994, rounded up to 0.0000001 mm, and U twice that.
    /// </summary>
    [Theory]
    [InlineData(InstrumentKind.HeightGauge, "4.00 mm", 0.0258200, "the last digit written down, 0.01 mm,")]
    [InlineData(InstrumentKind.HeightGauge, "4.000 mm", 0.0258200, "0.01 mm is taken")]
    [InlineData(InstrumentKind.HeightGauge, "4.00000 mm", 0.0258200, "0.01 mm is taken")]
    [InlineData(InstrumentKind.HeightGauge, "0.157000 in", 0.0327914, "0.0005 in is taken")]
    [InlineData(InstrumentKind.DiameterTape, "4.00000 mm", 0.2581990, "0.10 mm is taken")]
    [InlineData(InstrumentKind.DiameterTape, "0.157000 in", 0.3279126, "0.005 in is taken")]
    [InlineData(InstrumentKind.HeightGauge, "4.0 mm", 0.2581990, "the last digit written down, 0.10 mm,")]
    public void Evaluate_ZerosWrittenBehindAReading_ProveNothing(
        InstrumentKind kind,
        string read,
        double expanded,
        string told
    )
    {
        var silent = new Instrument
        {
            Id = new("HG-01"),
            Kind = kind,
            ZeroCheck = new(L("0.00 mm"), null),
        };
        BenchEntry[] entries = [Height("left", read), Height("right", read)];

        var known = Left(Frame([silent], null, entries), MeasuredQuantity.HeightOfCut, 51).Knowledge;

        Assert.Equal((decimal)expanded, Assert.IsType<MeasuredValue>(known).Expanded.Value.Millimetres);
        Assert.Contains(
            Judged([silent], entries).Notices,
            notice => notice.Contains($"HG-01 states no resolution: {told}", StringComparison.Ordinal)
        );
    }

    /// <summary>
    /// No gauge shows 10 nm: it proves no more than the finest of its kind, u² = q²/12 + (2q)²/3 + (q/2)² with q = 0.0001 mm, of a calliper
    /// 0.001 mm, of a tape 0.01 mm, rounded up and doubled; and the finding says so.
    /// </summary>
    [Theory]
    [InlineData(InstrumentKind.HeightGauge, "0.00001 mm", 0.0002582, "0.0001 mm")]
    [InlineData(InstrumentKind.HeightGauge, "0.0000004 in", 0.0002582, "0.0001 mm")]
    [InlineData(InstrumentKind.Calliper, "0.00001 mm", 0.0025820, "0.001 mm")]
    [InlineData(InstrumentKind.DiameterTape, "0.00001 mm", 0.0258200, "0.01 mm")]
    public void Evaluate_AStepNoGaugeShows_ProvesNoMoreThanTheFinest(
        InstrumentKind kind,
        string stated,
        double expanded,
        string taken
    )
    {
        var wishful = new Instrument
        {
            Id = new("HG-01"),
            Kind = kind,
            Resolution = L(stated),
            ZeroCheck = new(L("0.00 mm"), null),
        };
        BenchEntry[] entries = [Height("left", "4.00000 mm"), Height("right", "4.00000 mm")];
        var frame = Frame([wishful], null, entries);
        var told =
            $"gauge HG-01 states a resolution of {stated}, finer than any gauge of its kind shows: {taken} is taken for its step (common practice, no source)";

        var known = Left(frame, MeasuredQuantity.HeightOfCut, 51).Knowledge;
        var fit = CheckEvaluation.Evaluate(RuleFor(new Check.Recency(RecencyOf.Instruments)), frame, null);

        Assert.Equal((decimal)expanded, Assert.IsType<MeasuredValue>(known).Expanded.Value.Millimetres);
        Assert.Contains(
            Judged([wishful], entries).Notices,
            notice => notice.Contains(told, StringComparison.Ordinal)
        );
        Assert.Contains(told, fit.Notices);
        Assert.Contains("/instruments/0/resolution", fit.Evidence);
    }

    /// <summary>What a gauge states as its step is its word, as long as gauges of its kind show it.</summary>
    [Fact]
    public void Evaluate_AFinerStepThatIsStated_Counts()
    {
        var fine = new Instrument
        {
            Id = new("HG-01"),
            Kind = InstrumentKind.HeightGauge,
            Resolution = L("0.001 mm"),
            ZeroCheck = new(L("0.000 mm"), null),
        };
        var frame = Frame([fine], null, Height("left", "4.000 mm"), Height("right", "4.000 mm"));

        var known = Left(frame, MeasuredQuantity.HeightOfCut, 51).Knowledge;

        Assert.Equal(0.0025820m, Assert.IsType<MeasuredValue>(known).Expanded.Value.Millimetres);
        Assert.DoesNotContain(
            Judged([fine], Height("left", "4.000 mm"), Height("right", "4.000 mm")).Notices,
            notice => notice.Contains("resolution", StringComparison.Ordinal)
        );
    }

    /// <summary>
    /// A step of 0.01 mm: two of them are taken where nobody compared the scale, 2·2·0.01/√3 = 0.0231 mm. U = 0.30 mm by a certificate
    /// is more, and proves nothing within 0.10 mm.
    /// </summary>
    [Fact]
    public void Evaluate_AWorseCertificateThanNone_IsToldAndSoIsNone()
    {
        static Calibration Stating(string u) => new(new(2026, 1, 10), new(2027, 1, 10), L(u), 2m);
        CheckOutcome With(Calibration? calibration) =>
            Judged(
                [First with { Calibration = calibration }],
                Height("left", "4.00 mm"),
                Height("right", "4.00 mm")
            );

        var (none, worse, usual) = (With(null), With(Stating("0.30 mm")), With(Stating("0.023 mm")));

        Assert.Equal(
            (Verdict.Met, Verdict.Unproven, Verdict.Met),
            (none.Verdict, worse.Verdict, usual.Verdict)
        );
        Assert.EndsWith(
            "gauge HG-01 has no certificate: its scale is taken to be within two of its steps, 0.02 mm (common practice, no source); nobody compared it with anything",
            Assert.Single(none.Notices),
            StringComparison.Ordinal
        );
        Assert.EndsWith(
            "by its certificate gauge HG-01 may be off by 0.30 mm, more than the 0.024 mm taken of a gauge without one (two of its steps; common practice, no source): what the certificate found counts, and leaving it out would make no reading better",
            Assert.Single(worse.Notices),
            StringComparison.Ordinal
        );
        Assert.Empty(usual.Notices);
    }
}
