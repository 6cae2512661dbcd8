using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

/// <summary>Feelers tried before and after known steps, and what is turned by what they tell.</summary>
public class FeelersAndStepsTests
{
    private static readonly Check Gap = new Check.LimitOnQuantity(
        MeasuredQuantity.Clearance,
        LimitSource.Sheet,
        CheckedPlaces.StationsAndEnds
    );

    private static BenchEntry[] AgainstTheStep(string passes, params BenchEntry[] more) =>
        [
            Feeler("left", "0.001 in", passes: false),
            Feeler("right", "0.001 in", passes: false),
            Open(Side.Both, 1),
            Feeler("left", passes, passes: true),
            Feeler("right", "0.001 in", passes: true),
            Feeler("right", "0.0015 in", passes: false),
            .. more,
        ];

    /// <summary>The step leaves less than 0.0016 in; 0.003 in passes: at least 0.0029 in, above the limit of 0.0025 in.</summary>
    [Fact]
    public void Evaluate_FeelersSinceTheTurnProveABreach_AreABreachWhateverTheStepSays()
    {
        var outcome = Judge(Gap, AgainstTheStep("0.003 in"));

        Assert.Equal((Verdict.NotMet, FindingReason.OutOfLimit), (outcome.Verdict, outcome.Reason));
        Assert.Contains("left (51 mm) at least 0.0029 in", outcome.Statement, StringComparison.Ordinal);
    }

    /// <summary>0.002 in passes and 0.0023 in does not: inside the limits by themselves, and still against the step.</summary>
    [Fact]
    public void Evaluate_FeelersSinceTheTurnLookIn_AreUnprovenAgainstTheStep()
    {
        var outcome = Judge(Gap, AgainstTheStep("0.002 in", Feeler("left", "0.0023 in", passes: false)));

        Assert.Equal((Verdict.Unproven, FindingReason.Conflicting), (outcome.Verdict, outcome.Reason));
    }

    /// <summary>
    /// 0.0005 in stops at the left, 0.0035 in passes and 0.0045 in stops at the right: more room than between the feelers of the
    /// procedure. By the middles the right would close first; the left may already touch, so that it is opened first.
    /// </summary>
    [Fact]
    public void Evaluate_WideFeelersWhereOneSideMayTouch_AreTurnedOpenFirst()
    {
        var outcome = Judge(
            Gap,
            Feeler("left", "0.0005 in", passes: false),
            Feeler("right", "0.0035 in", passes: true),
            Feeler("right", "0.0045 in", passes: false)
        );

        var turn = Assert.IsType<Remedy.Turn>(outcome.Remedy);
        Assert.True(turn.LeftSteps > 0 && turn.RightSteps < 0);
        Assert.Equal(new SingleStep(Side.Left, true), turn.Sequence[0]);
        Assert.False(turn.IsLeast);
    }

    /// <summary>
    /// 0.004 in passes and 0.014 in does not, at both: the middle, 0.009 in, would be closed by 15 steps of 0.0005 in, and
    /// what may be 0.0039 in would touch on the way. At the ends, 51 mm beyond stations 408 mm apart, it may be 0.0039 x 1.125 - 0.0141 x 0.125
    /// = 0.0026 in: four steps of at most 0.00055 in are sure not to touch, a fifth is not.
    /// </summary>
    [Fact]
    public void Evaluate_MiddleThatCouldTouchOnTheWay_TurnsTheLeastAndSaysSo()
    {
        BenchEntry[] At(string station) =>
            [Feeler(station, "0.004 in", passes: true), Feeler(station, "0.014 in", passes: false)];

        var turn = Assert.IsType<Remedy.Turn>(Judge(Gap, [.. At("left"), .. At("right")]).Remedy);

        Assert.True(turn.IsLeast);
        Assert.Equal((-4, -4), (turn.LeftSteps, turn.RightSteps));
    }

    /// <summary>
    /// Four steps closed 0.2000 to 0.1238 mm: 0.01905 mm a step, where the sheet says 0.0127. Five more leave 0.02855 mm, between
    /// the feelers of 0.0254 and 0.038 mm. With a step rounded to 0.0190 mm they would be said to leave 0.0288.
    /// </summary>
    [Fact]
    public void Evaluate_LearnedStep_IsCountedAsItWasLearned()
    {
        BenchEntry[] Both(string value) =>
            [
                Measured(MeasuredQuantity.Clearance, "left", value, "DG-01"),
                Measured(MeasuredQuantity.Clearance, "right", value, "DG-01"),
            ];

        var turn = Assert.IsType<Remedy.Turn>(
            Judge(
                Gap,
                [
                    .. Both("0.2000 mm"),
                    Steps(AdjusterKind.Clearance, Side.Both, AdjustDirection.Close, 4),
                    .. Both("0.1238 mm"),
                ]
            ).Remedy
        );

        Assert.Equal(Mm(0.01905m), turn.LearnedStep);
        Assert.Equal((-5, -5), (turn.LeftSteps, turn.RightSteps));
        Assert.All(turn.Predicted, predicted => Assert.Equal(Mm(0.02855m), predicted.After));
    }
}
