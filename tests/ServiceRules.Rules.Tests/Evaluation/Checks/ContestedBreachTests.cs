using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

public sealed class ContestedBreachTests
{
    private static readonly Check.LimitOnQuantity OnTarget = new(
        MeasuredQuantity.HeightOfCut,
        LimitSource.SettingOrder,
        CheckedPlaces.StationsAndEnds
    );

    private static readonly Check.LimitOnQuantity Gap = new(
        MeasuredQuantity.Clearance,
        LimitSource.Sheet,
        CheckedPlaces.StationsAndEnds
    );

    // Target 4.00 mm, 0.10 mm either way; U is about 0.013 mm.
    [Theory]
    [InlineData("4.20 mm", "4.26 mm", Verdict.NotMet)]
    [InlineData("4.05 mm", "4.26 mm", Verdict.Unproven)]
    [InlineData("4.11 mm", "4.26 mm", Verdict.Unproven)]
    [InlineData("3.80 mm", "4.26 mm", Verdict.Unproven)]
    public void Evaluate_ContradictingHeights_AreOutOnlyWhereEachIsOutTheSameWay(
        string first,
        string second,
        Verdict verdict
    )
    {
        var outcome = Judge(
            OnTarget,
            Height("left", first),
            Height("left", second),
            Height("right", "4.00 mm")
        );

        Assert.Equal(verdict, outcome.Verdict);
    }

    [Fact]
    public void Evaluate_ContradictingHeightsBothOut_AreToldByTheLesserAndReadAgain()
    {
        var outcome = Judge(
            OnTarget,
            Height("left", "4.26 mm"),
            Height("left", "4.20 mm"),
            Height("right", "4.00 mm")
        );

        Assert.Equal(FindingReason.OutOfLimit, outcome.Reason);
        Assert.Contains("left (51 mm) 4.200 mm", outcome.Statement, StringComparison.Ordinal);
        Assert.Contains(
            outcome.Notices,
            notice => notice.Contains("out whichever of them is believed", StringComparison.Ordinal)
        );
        var again = Assert.IsType<Remedy.ReadAgain>(outcome.Remedy);
        Assert.Equal(["left (51 mm)"], again.Places.AsEnumerable());
    }

    // Upper limit 0.0025 in. 0.003 in passes and 0.0035 in does not: together at least 0.0029 in. With 0.004 in: more.
    [Theory]
    [InlineData("0.003 in", Verdict.NotMet)]
    [InlineData("0.0025 in", Verdict.Unproven)]
    public void Evaluate_FeelersThatExcludeOneAnother_ShowWhatEveryChoiceOfThemShows(
        string thinnest,
        Verdict verdict
    )
    {
        var outcome = Judge(
            Gap,
            Feeler("left", thinnest, true),
            Feeler("left", "0.0035 in", false),
            Feeler("left", "0.004 in", true),
            Feeler("right", "0.001 in", true),
            Feeler("right", "0.0015 in", false)
        );

        Assert.Equal(verdict, outcome.Verdict);
    }

    // It passes: at least 0.0029 in. It does not: less than 0.0031 in, which may be in.
    [Fact]
    public void Evaluate_OneFeelerBothWays_IsNoBreach() =>
        Assert.Equal(
            (Verdict.Unproven, FindingReason.Conflicting),
            Both(
                Judge(
                    Gap,
                    Feeler("left", "0.003 in", true),
                    Feeler("left", "0.003 in", false),
                    Feeler("right", "0.001 in", true),
                    Feeler("right", "0.0015 in", false)
                )
            )
        );

    [Fact]
    public void Evaluate_FarOutWithAGaugeOfWhichNothingIsKnown_IsUnprovenAndShowsNoUncertainty()
    {
        var outcome = Judge(
            OnTarget,
            Measured(MeasuredQuantity.HeightOfCut, "left", "4.80 mm", null),
            Height("right", "4.00 mm")
        );

        Assert.Equal((Verdict.Unproven, FindingReason.UncertaintyUnknown), Both(outcome));
        Assert.DoesNotContain("±", outcome.Statement, StringComparison.Ordinal);
        Assert.Null(outcome.Comparisons[0].Uncertainty);
        Assert.Null(outcome.Comparisons[0].Probability);
    }

    [Fact]
    public void Evaluate_FarOutByFeelersWithoutTolerance_IsUnproven()
    {
        var outcome = Judge(
            Gap,
            Feeler("left", "0.006 in", true, "FG-02"),
            Feeler("right", "0.001 in", true),
            Feeler("right", "0.0015 in", false)
        );

        Assert.Equal((Verdict.Unproven, FindingReason.UncertaintyUnknown), Both(outcome));
        Assert.Contains("as the feelers are marked", outcome.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Evaluate_FarOutBySureFeelers_StaysOutWhateverOthersAreTried()
    {
        var outcome = Judge(
            Gap,
            Feeler("left", "0.003 in", true),
            Feeler("left", "0.0035 in", false, "FG-02"),
            Feeler("right", "0.001 in", true),
            Feeler("right", "0.0015 in", false)
        );

        Assert.Equal((Verdict.NotMet, FindingReason.OutOfLimit), Both(outcome));
    }

    private static (Verdict, FindingReason) Both(CheckOutcome outcome) => (outcome.Verdict, outcome.Reason);
}
