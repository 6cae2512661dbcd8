using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

/// <summary>Steps that only a hand at the unit makes: whoever makes them has hands in at that moment.</summary>
public sealed class StepsByHandTests
{
    private const string Whole = MakeSafe.Seat + MakeSafe.Isolation + MakeSafe.Work + MakeSafe.After;

    private const string Next = "\n09:44 work_started tech-01\n09:45 work_stopped tech-01";

    private static readonly SafetyCase Job = new()
    {
        People = [SafetyCase.Person("tech-01"), SafetyCase.Person("op-01", JobRole.Affected)],
    };

    [Theory]
    [InlineData("09:00 reel_wedged op-01", Verdict.NotMet)]
    [InlineData("09:00 unit_supported op-01", Verdict.Unproven)]
    [InlineData("09:00 guards_refitted op-01", Verdict.Unproven)]
    [InlineData("09:42 guards_refitted op-01", Verdict.Unproven)]
    [InlineData("09:00 reel_wedged tech-01", Verdict.Met)]
    [InlineData("09:41 reel_wedged tech-01", Verdict.Met)]
    [InlineData("09:46 guards_refitted tech-01", Verdict.Met)]
    [InlineData("09:47 guards_refitted tech-01", Verdict.Met)]
    [InlineData("09:49 guards_refitted tech-01", Verdict.Unproven)]
    [InlineData("09:49 reel_wedged tech-01", Verdict.NotMet)]
    [InlineData("09:49 unit_supported op-01", Verdict.Unproven)]
    [InlineData(
        "09:51 isolator_operated tech-01 source=engine_start position=on\n09:52 guards_refitted tech-01",
        Verdict.NotMet
    )]
    public void Protection_StepByHandOutsideOwnWork_NeedsOwnProtectionAtItsMoment(
        string entry,
        Verdict expected
    ) => Assert.Equal(expected, Judge(entry).Verdict);

    [Theory]
    [InlineData("08:02 unit_supported op-01", Verdict.Met)]
    [InlineData("08:10 unit_supported op-01", Verdict.Met)]
    [InlineData("08:10 reel_wedged tech-01", Verdict.Met)]
    [InlineData("08:10 reel_wedged op-01", Verdict.NotMet)]
    [InlineData("08:05 reel_wedged tech-01", Verdict.NotMet)]
    public void Protection_StepByHandBeforeWork_NeedsIsolationAndNoProofYet(string entry, Verdict expected) =>
        Assert.Equal(expected, Judge(entry).Verdict);

    // Whether the next stretch has begun tells nothing of the moment in between.
    [Theory]
    [InlineData("09:43 unit_supported op-01", "", Verdict.Unproven)]
    [InlineData("09:43 unit_supported op-01", Next, Verdict.Unproven)]
    [InlineData("09:43 reel_wedged op-01", Next, Verdict.NotMet)]
    [InlineData("09:43 unit_supported tech-01", Next, Verdict.Met)]
    public void Protection_StepByHandBetweenTwoStretches_NeedsOwnProtection(
        string entry,
        string next,
        Verdict expected
    ) =>
        Assert.Equal(
            expected,
            Job.With(MakeSafe.Seat + MakeSafe.Isolation + MakeSafe.Work + "\n" + entry + next)
                .Judge(new Check.Protection())
                .Verdict
        );

    [Fact]
    public void Protection_WedgeBySomebodyWithNoPartInTheWork_NamesThemAndWhatTheyLacked()
    {
        var outcome = Judge("09:00 reel_wedged op-01");

        Assert.Equal(FindingReason.Unprotected, outcome.Reason);
        Assert.Equal(
            "The record shows the reel wedged at 09:00 by op-01, which takes hands at the unit. By then it does not show op-01's own lock on engine start and hydraulic pressure.",
            outcome.Statement
        );
    }

    [Fact]
    public void Protection_WedgeBeforeAnythingIsSeenAtRest_IsUnproven()
    {
        var outcome = Job.With(
                Whole.Replace("08:04 seen_at_rest", "08:16 seen_at_rest", StringComparison.Ordinal)
                    + "\n08:11 reel_wedged tech-01"
            )
            .Judge(new Check.Protection());

        Assert.Equal((Verdict.Unproven, FindingReason.WrongOrder), (outcome.Verdict, outcome.Reason));
    }

    [Theory]
    [InlineData(30, Verdict.Met)]
    [InlineData(600, Verdict.Unproven)]
    public void Protection_WedgeBeforeTheReelHasRunDown_IsUnproven(int runDown, Verdict expected)
    {
        var job = Job with { Procedure = SafetyCase.RideOn with { RunDownSeconds = runDown } };

        var outcome = job.With(Whole + "\n2026-04-13T08:10:30+01:00 reel_wedged tech-01")
            .Judge(new Check.Protection());

        Assert.Equal(expected, outcome.Verdict);
    }

    [Theory]
    [InlineData("09:00 units_lowered op-01", Verdict.Unproven)]
    [InlineData("09:00 units_lowered tech-01", Verdict.Unproven)]
    [InlineData("08:20 units_lowered tech-01", Verdict.Met)]
    [InlineData("09:40 units_lowered tech-01", Verdict.Met)]
    [InlineData("08:19 units_lowered op-01", Verdict.Met)]
    [InlineData("09:00 cut_outs_proved op-01", Verdict.Unproven)]
    [InlineData("09:40 cut_outs_proved tech-01", Verdict.Met)]
    [InlineData("09:41 cut_outs_proved tech-01", Verdict.Met)]
    public void Protection_UnitsMovedOrCutOutsTried_OnlyWithAllHandsOut(string entry, Verdict expected) =>
        Assert.Equal(expected, Judge(entry).Verdict);

    // Under own locks nothing else is wrong with it.
    [Theory]
    [InlineData("09:00 unit_supported tech-02", Verdict.Unproven)]
    [InlineData("09:00 unit_supported tech-01", Verdict.Met)]
    [InlineData("09:42 unit_supported tech-02", Verdict.Met)]
    public void Protection_UnitProppedUpUnderTheHandsOfAnother_IsUnproven(string entry, Verdict expected)
    {
        var outcome = Job.With(
                Whole
                    + """

                    08:10 lock_applied tech-02 source=engine_start lock=L-21 position=off
                    08:10:30 lock_applied tech-02 source=hydraulic lock=L-22 position=closed
                    09:44 lock_removed tech-02 source=engine_start lock=L-21
                    09:44:30 lock_removed tech-02 source=hydraulic lock=L-22

                    """
                    + entry
            )
            .Judge(new Check.Protection());

        Assert.Equal(expected, outcome.Verdict);
        Assert.Equal(
            expected == Verdict.Unproven,
            outcome.Statement.Contains("what held it until then", StringComparison.Ordinal)
        );
    }

    private static CheckOutcome Judge(string entry) =>
        Job.With(Whole + "\n" + entry).Judge(new Check.Protection());
}
