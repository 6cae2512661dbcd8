using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation;

/// <summary>A gauge held to what its kind cannot read proves nothing in, and what it shows out stays out.</summary>
public sealed class GaugeReachedTests
{
    private static Instrument Fine(InstrumentKind kind) =>
        new()
        {
            Id = new("X-01"),
            Kind = kind,
            Resolution = L("0.0001 mm"),
            Tolerance = L("0.0001 in"),
        };

    [Theory]
    [InlineData(InstrumentKind.PaperStrip)]
    [InlineData(InstrumentKind.BenchPlate)]
    [InlineData(InstrumentKind.AngleGauge)]
    [InlineData(InstrumentKind.FeelerGauge)]
    [InlineData(InstrumentKind.Micrometer)]
    [InlineData(InstrumentKind.DiameterTape)]
    [InlineData(InstrumentKind.FixedSizePiece)]
    public void Evaluate_AHeightByWhatReadsNoHeight_IsUnprovenAndToldWithWhatDoes(InstrumentKind kind)
    {
        var outcome = GaugeTests.Judged(
            [Fine(kind)],
            Height("left", "4.0000 mm", "X-01"),
            Height("right", "4.0000 mm", "X-01")
        );

        Assert.Equal((Verdict.Unproven, FindingReason.GaugeCannotRead), (outcome.Verdict, outcome.Reason));
        Assert.Contains(
            outcome.Notices,
            notice =>
                notice.Contains("gauge X-01 is a", StringComparison.Ordinal)
                && notice.Contains("which cannot read height of cut", StringComparison.Ordinal)
                && notice.Contains(
                    "a height gauge, a dial gauge, a depth gauge or a calliper does",
                    StringComparison.Ordinal
                )
        );
    }

    [Fact]
    public void Evaluate_AHeightFarOutByWhatReadsNoHeight_StaysOut() =>
        Assert.Equal(
            Verdict.NotMet,
            GaugeTests
                .Judged(
                    [Fine(InstrumentKind.PaperStrip)],
                    Height("left", "5.0000 mm", "X-01"),
                    Height("right", "5.0000 mm", "X-01")
                )
                .Verdict
        );

    /// <summary>0.001 in passes and 0.0015 in does not, by a strip that states a tolerance of feelers.</summary>
    [Theory]
    [InlineData(InstrumentKind.FeelerGauge, Verdict.Met)]
    [InlineData(InstrumentKind.PaperStrip, Verdict.Unproven)]
    [InlineData(InstrumentKind.DialGauge, Verdict.Unproven)]
    public void Evaluate_TriesByWhatIsNoFeeler_ProveNothing(InstrumentKind kind, Verdict verdict)
    {
        var check = new Check.LimitOnQuantity(
            MeasuredQuantity.Clearance,
            LimitSource.Sheet,
            CheckedPlaces.Stations
        );
        var frame = GaugeTests.Frame(
            [Fine(kind)],
            null,
            Feeler("left", "0.001 in", true, "X-01"),
            Feeler("left", "0.0015 in", false, "X-01"),
            Feeler("right", "0.001 in", true, "X-01"),
            Feeler("right", "0.0015 in", false, "X-01")
        );

        Assert.Equal(verdict, Judge(check, frame).Verdict);
    }

    /// <summary>A piece passes or does not, at the one size that it has: 1.00 mm to 1.05 mm takes two of them.</summary>
    [Theory]
    [InlineData("X-01", Verdict.Unproven)]
    [InlineData("X-02", Verdict.Met)]
    public void Evaluate_TwoSizesByOnePiece_ProveNothingAndAreToldBoth(string other, Verdict verdict)
    {
        var piece = Fine(InstrumentKind.FixedSizePiece);
        var frame = GaugeTests.Frame(
            [piece, piece with { Id = new("X-02") }],
            null,
            Feeler("left", "0.001 in", true, "X-01"),
            Feeler("left", "0.0015 in", false, other),
            Feeler("right", "0.001 in", true, "X-01"),
            Feeler("right", "0.0015 in", false, other)
        );

        var outcome = Judge(
            new Check.LimitOnQuantity(MeasuredQuantity.Clearance, LimitSource.Sheet, CheckedPlaces.Stations),
            frame
        );

        Assert.Equal(verdict, outcome.Verdict);
        Assert.Equal(
            verdict is Verdict.Unproven,
            outcome.Notices.Any(notice =>
                notice.Contains(
                    "gauge X-01 is a piece of fixed size and was tried as 0.001 in and 0.0015 in: it has one size",
                    StringComparison.Ordinal
                )
            )
        );
    }

    /// <summary>Where a gauge that reads it was used as well, that one counts, and the other is told.</summary>
    [Fact]
    public void Evaluate_AGaugeThatReadsItBesideOneThatDoesNot_CountsAlone()
    {
        var outcome = GaugeTests.Judged(
            [Instruments[0], Fine(InstrumentKind.BenchPlate)],
            Height("left", "4.00 mm"),
            Height("left", "4.0300 mm", "X-01"),
            Height("right", "4.00 mm")
        );

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.Contains(
            outcome.Notices,
            notice => notice.Contains("gauge X-01 is a bench plate", StringComparison.Ordinal)
        );
    }
}
