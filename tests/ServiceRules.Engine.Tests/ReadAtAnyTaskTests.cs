using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Engine.Tests;

/// <summary>What was read and is out counts whatever the task is called; what is not asked for is not missed.</summary>
public class ReadAtAnyTaskTests
{
    private static readonly Rule Play = Jobs.Rule(
        "play",
        check: Jobs.LimitOn(MeasuredQuantity.BearingPlay),
        when: new() { Tasks = [ServiceTask.FullService], OrRead = [MeasuredQuantity.BearingPlay] }
    );

    private static readonly Rule Height = Jobs.Rule(
        "height",
        check: Jobs.LimitOn(MeasuredQuantity.HeightOfCut),
        when: new() { Tasks = [ServiceTask.HeightCheck] }
    );

    private static Assessment Assess(KnownState state, CheckOutcome outcome, params Rule[] rules)
    {
        var frame = Jobs.Frame(Jobs.Record(Jobs.Unit("a")), rules);
        return new RuleEngine(Jobs.Answers(("play", outcome))).Assess(
            frame with
            {
                Units =
                [
                    frame.Units[0] with
                    {
                        Known = [new(MeasuredQuantity.BearingPlay, [], [Place(state)])],
                    },
                ],
            },
            Jobs.Digests
        );
    }

    private static PlaceKnown Place(KnownState state) =>
        new()
        {
            Station = null,
            Blade = null,
            State = state,
            Knowledge = null,
            System = Domain.Quantities.UnitSystem.Metric,
            Evidence = [],
        };

    [Theory]
    [InlineData(Verdict.NotMet, FindingReason.OutOfLimit, Effect.Hold, Disposition.Hold)]
    [InlineData(Verdict.Unproven, FindingReason.InsideGuard, Effect.Advise, Disposition.Release)]
    [InlineData(Verdict.Unproven, FindingReason.Conflicting, Effect.Advise, Disposition.Release)]
    [InlineData(Verdict.Met, FindingReason.None, Effect.None, Disposition.Release)]
    public void Assess_ReadAndNotAskedFor_HoldsOnlyWhereItIsOut(
        Verdict verdict,
        FindingReason reason,
        Effect effect,
        Disposition disposition
    )
    {
        var assessment = Assess(KnownState.Fresh, Jobs.Outcome(verdict, reason), Play, Height);

        var finding = assessment.Of("play", "unit/a");
        Assert.Equal((verdict, effect), (finding.Verdict, finding.Effect));
        Assert.Equal(disposition, assessment.Job.Disposition);
        Assert.Equal(
            verdict is not Verdict.Met,
            finding.Notices.Any(one => one.Contains("does not ask", StringComparison.Ordinal))
        );
    }

    [Theory]
    [InlineData(FindingReason.NotMeasured)]
    [InlineData(FindingReason.TooFewStations)]
    [InlineData(FindingReason.NoSettingInForce)]
    public void Assess_PartMissingOfWhatIsNotAskedFor_IsNotMissed(FindingReason reason) =>
        Assert.Equal(
            Verdict.NotApplicable,
            Assess(KnownState.Fresh, Jobs.Outcome(Verdict.Unproven, reason), Play, Height)
                .Of("play", "unit/a")
                .Verdict
        );

    /// <summary>As found and put right afterwards: what was read no longer holds.</summary>
    [Fact]
    public void Assess_ReadingMadeVoid_IsNotJudged() =>
        Assert.DoesNotContain(
            Assess(KnownState.Stale, Jobs.Outcome(Verdict.NotMet), Play, Height).Findings,
            finding => finding.Rule == "play"
        );

    /// <summary>What happened to be read is no judgement that lets a unit out.</summary>
    [Fact]
    public void Assess_NothingButWhatIsNotAskedFor_IsHeldAsNoRule() =>
        Assert.Equal(
            [RuleEngine.NoRule],
            Assess(KnownState.Fresh, Jobs.Outcome(Verdict.Met), Play).Job.Because.AsEnumerable()
        );

    [Fact]
    public void Assess_TaskOfTheJobThatNoUnitHad_HoldsTheJob()
    {
        var weaker = Jobs.Unit("a") with { Tasks = [ServiceTask.DailyCheck] };
        var record = Jobs.Record(weaker, Jobs.Unit("b"));
        var bare = Jobs.Rule("bare", check: Jobs.LimitOn(MeasuredQuantity.HeightOfCut));

        var none = new RuleEngine(Jobs.Answers()).Assess(
            Jobs.Frame(record with { Units = [weaker] }, [bare]),
            Jobs.Digests
        );
        var one = new RuleEngine(Jobs.Answers()).Assess(Jobs.Frame(record, [bare]), Jobs.Digests);

        Assert.Equal(Disposition.Hold, none.Job.Disposition);
        Assert.Equal([RuleEngine.TaskOfNoUnit], none.Job.Because.AsEnumerable());
        Assert.Equal(Disposition.Release, one.Job.Disposition);
    }
}
