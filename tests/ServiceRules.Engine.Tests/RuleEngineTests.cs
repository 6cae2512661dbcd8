using System.Collections.Immutable;
using System.Text.Json;
using FsCheck.Xunit;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Engine.Tests;

public class RuleEngineTests
{
    private static readonly Rule Clearance = Jobs.Rule(
        "clearance",
        check: Jobs.LimitOn(MeasuredQuantity.Clearance)
    );

    private static readonly Rule Height = Jobs.Rule(
        "height",
        check: Jobs.LimitOn(MeasuredQuantity.HeightOfCut)
    );

    private static readonly Rule Groomer = Jobs.Rule(
        "groomer",
        check: Jobs.LimitOn(MeasuredQuantity.GroomerHeight)
    );

    private static readonly Rule Spread = Jobs.Rule(
        "spread",
        RuleScope.Set,
        new Check.Spread(MeasuredQuantity.HeightOfCut, SpreadAcross.Units)
    );

    private static readonly Rule Safety = Jobs.Rule(
        "safety",
        RuleScope.Job,
        new Check.Protection(),
        Severity.Stop
    );

    private static readonly ImmutableArray<Rule> All = [Clearance, Height, Groomer, Spread, Safety];

    private static readonly ServiceRecord TwoUnits = Jobs.Record(Jobs.Unit("a"), Jobs.Unit("b", "large"));

    private static Assessment Assess(
        ServiceRecord record,
        IEnumerable<Rule> rules,
        params (string On, Rules.Evaluation.CheckOutcome Outcome)[] answers
    ) => new RuleEngine(Jobs.Answers(answers)).Assess(Jobs.Frame(record, rules), Jobs.Digests);

    [Fact]
    public void Assess_EverythingMet_MayGoOut()
    {
        var assessment = Assess(TwoUnits, All);

        Assert.Equal(Disposition.Release, assessment.Job.Disposition);
        Assert.Equal(Disposition.Release, assessment.Set.Disposition);
        Assert.All(assessment.Units, u => Assert.Equal(Disposition.Release, u.Outcome.Disposition));
        Assert.Equal(8, assessment.Findings.Length);
        Assert.All(assessment.Findings, f => Assert.Equal(Effect.None, f.Effect));
    }

    [Fact]
    public void Assess_OneUnitHeld_HoldsSetAndJobButNotTheOther()
    {
        var assessment = Assess(TwoUnits, All, ("height@a", Jobs.Outcome(Verdict.NotMet)));

        Assert.Equal(Disposition.Hold, assessment.OfUnit("a"));
        Assert.Equal(Disposition.Release, assessment.OfUnit("b"));
        Assert.Equal(Disposition.Hold, assessment.Set.Disposition);
        Assert.Equal(Disposition.Hold, assessment.Job.Disposition);
        Assert.Equal(["height"], assessment.Job.Because.ToArray());
    }

    [Theory]
    [InlineData(Verdict.NotMet, Disposition.Stop)]
    [InlineData(Verdict.Unproven, Disposition.Hold)]
    public void Assess_SafetyOfTheJobNotShown_KeepsEveryUnit(Verdict verdict, Disposition expected)
    {
        var assessment = Assess(TwoUnits, All, ("safety", Jobs.Outcome(verdict)));

        Assert.Equal(expected, assessment.Job.Disposition);
        Assert.Equal(expected, assessment.Set.Disposition);
        Assert.All(assessment.Units, u => Assert.Equal(expected, u.Outcome.Disposition));
        Assert.All(assessment.Units, u => Assert.Equal(["safety"], u.Outcome.Because.ToArray()));
    }

    [Fact]
    public void Assess_JobRuleThatIsNotSafety_LeavesUnitsAlone()
    {
        var paper = Jobs.Rule("paper", RuleScope.Job);

        var assessment = Assess(TwoUnits, [.. All, paper], ("paper", Jobs.Outcome(Verdict.NotMet)));

        Assert.Equal(Disposition.Hold, assessment.Job.Disposition);
        Assert.Equal(Disposition.Release, assessment.Set.Disposition);
        Assert.Equal(Disposition.Release, assessment.OfUnit("a"));
    }

    [Theory]
    [InlineData(Severity.Advise, Verdict.NotMet)]
    [InlineData(Severity.Hold, Verdict.NotMet)]
    [InlineData(Severity.Stop, Verdict.NotMet)]
    [InlineData(Severity.Stop, Verdict.Unproven)]
    public void Assess_RuleOnTheProgramme_IsToldAndWeighsOnNothing(Severity severity, Verdict verdict)
    {
        var duty = new Check.EnergyControl(EnergyDuty.ProcedureInspected);
        var inspected = Jobs.Rule("inspected", RuleScope.Programme, duty, severity);

        var assessment = Assess(TwoUnits, [.. All, inspected], ("inspected", Jobs.Outcome(verdict)));

        Assert.Equal(verdict, assessment.Of("inspected", "programme").Verdict);
        Assert.Equal(Effect.Advise, assessment.Of("inspected", "programme").Effect);
        Assert.Equal(Disposition.Release, assessment.Job.Disposition);
        Assert.Equal(Disposition.Release, assessment.Set.Disposition);
        Assert.Equal(Disposition.Release, assessment.OfUnit("a"));
    }

    [Theory]
    [InlineData(EnergyDuty.SourcesIsolated, Disposition.Stop)]
    [InlineData(EnergyDuty.NoHandsWhileEnergised, Disposition.Stop)]
    [InlineData(EnergyDuty.PeopleClear, Disposition.Hold)]
    [InlineData(EnergyDuty.OwnerTold, Disposition.Hold)]
    public void Assess_DutyUnprovenOnAnOpenJob_StopsWhereHandsGoInNext(EnergyDuty of, Disposition expected)
    {
        var duty = Jobs.Rule("duty", RuleScope.Job, new Check.EnergyControl(of), Severity.Stop);

        var assessment = Assess(
            TwoUnits with
            {
                SignOff = null,
            },
            [.. All, duty],
            ("duty", Jobs.Outcome(Verdict.Unproven))
        );

        Assert.Equal(expected, assessment.Job.Disposition);
    }

    [Fact]
    public void Assess_HoldAndStop_StopWins()
    {
        var assessment = Assess(
            TwoUnits,
            All,
            ("height@a", Jobs.Outcome(Verdict.NotMet)),
            ("safety", Jobs.Outcome(Verdict.NotMet))
        );

        Assert.Equal(Disposition.Stop, assessment.OfUnit("a"));
        Assert.Equal(["height", "safety"], assessment.Job.Because.ToArray());
    }

    [Fact]
    public void Assess_OpenJobWithEverythingMet_ReleasesNothing()
    {
        var assessment = Assess(TwoUnits with { SignOff = null }, All);

        Assert.Equal(Disposition.Hold, assessment.Job.Disposition);
        Assert.Equal([RuleEngine.OpenJob], assessment.Job.Because.ToArray());
        Assert.Equal(Disposition.Hold, assessment.Set.Disposition);
        Assert.Equal(Disposition.Hold, assessment.OfUnit("a"));
    }

    [Fact]
    public void Assess_UnitThatNoRuleJudges_IsHeldAndWithItTheWhole()
    {
        var onLarge = Clearance with { When = new() { Sheets = ["large"] } };

        var assessment = Assess(TwoUnits, [onLarge, Safety]);

        Assert.Equal(Disposition.Hold, assessment.OfUnit("a"));
        Assert.Equal(Disposition.Release, assessment.OfUnit("b"));
        Assert.Equal([RuleEngine.NoRule], assessment.Units[0].Outcome.Because.ToArray());
        Assert.Equal(Disposition.Hold, assessment.Set.Disposition);
        Assert.Equal(Disposition.Hold, assessment.Job.Disposition);
        Assert.Equal([RuleEngine.NoRule], assessment.Job.Because.ToArray());
    }

    /// <summary>A rule that finds nothing to judge has judged nothing.</summary>
    [Fact]
    public void Assess_OnlyWhatDoesNotApply_IsHeld()
    {
        var assessment = Assess(
            TwoUnits,
            [Clearance],
            ("clearance@a", Jobs.Outcome(Verdict.NotApplicable)),
            ("clearance@b", Jobs.Outcome(Verdict.Met))
        );

        Assert.Equal(Disposition.Hold, assessment.OfUnit("a"));
        Assert.Equal(Disposition.Release, assessment.OfUnit("b"));
    }

    [Fact]
    public void Assess_JobWithoutUnits_IsHeld() =>
        Assert.Equal(Disposition.Hold, Assess(Jobs.Record(), All).Job.Disposition);

    [Fact]
    public void Assess_ReadingShownStale_TakesProofFromWhatRestsOnIt()
    {
        var fresh = Jobs.Rule(
            "fresh",
            check: new Check.Freshness(MeasuredQuantity.HeightOfCut),
            severity: Severity.Advise
        );

        var assessment = Assess(
            TwoUnits,
            [.. All, fresh],
            ("fresh@a", Jobs.Outcome(Verdict.NotMet, FindingReason.Stale))
        );

        var height = assessment.Of("height", "unit/a");
        Assert.Equal(Verdict.Unproven, height.Verdict);
        Assert.Equal(FindingReason.Stale, height.Reason);
        Assert.Equal(Effect.Hold, height.Effect);
        Assert.IsType<Remedy.ReadAgain>(height.Remedy);
        Assert.Equal(Verdict.Unproven, assessment.Of("spread", "set").Verdict);
        Assert.Equal(Verdict.Met, assessment.Of("height", "unit/b").Verdict);
        Assert.Equal(Verdict.Met, assessment.Of("clearance", "unit/a").Verdict);
        Assert.Equal(Disposition.Hold, assessment.OfUnit("a"));
        Assert.Equal(Disposition.Release, assessment.OfUnit("b"));
        Assert.Equal(["height", "spread"], assessment.Job.Because.ToArray());
    }

    [Fact]
    public void Assess_StaleReading_NeverSoftensABreach()
    {
        var assessment = Assess(
            TwoUnits,
            [.. All, Jobs.Rule("fresh", check: new Check.Freshness(MeasuredQuantity.HeightOfCut))],
            ("fresh@a", Jobs.Outcome(Verdict.NotMet, FindingReason.Stale)),
            ("height@a", Jobs.Outcome(Verdict.NotMet, FindingReason.OutOfLimit))
        );

        Assert.Equal(FindingReason.OutOfLimit, assessment.Of("height", "unit/a").Reason);
        Assert.Equal(Verdict.NotMet, assessment.Of("height", "unit/a").Verdict);
    }

    [Fact]
    public void Assess_ClearanceOpenOnAMovingBedknife_HeightAndGroomerRemediesWait()
    {
        var assessment = Assess(
            TwoUnits,
            All,
            ("clearance", Jobs.Outcome(Verdict.NotMet) with { Remedy = Turn(AdjusterKind.Clearance) }),
            ("height", Jobs.Outcome(Verdict.NotMet) with { Remedy = Turn(AdjusterKind.Height) }),
            ("groomer", Jobs.Outcome(Verdict.NotMet) with { Remedy = Turn(AdjusterKind.Groomer) })
        );

        Assert.IsType<Remedy.Turn>(assessment.Of("clearance", "unit/a").Remedy);
        Assert.StartsWith(
            "settle `clearance` first",
            Assert.IsType<Remedy.Act>(assessment.Of("height", "unit/a").Remedy).What,
            StringComparison.Ordinal
        );
        Assert.StartsWith(
            "settle `clearance` and `height` first",
            Assert.IsType<Remedy.Act>(assessment.Of("groomer", "unit/a").Remedy).What,
            StringComparison.Ordinal
        );
        // A fixed bedknife: clearance steps leave the height alone.
        Assert.IsType<Remedy.Turn>(assessment.Of("height", "unit/b").Remedy);
    }

    [Fact]
    public void Assess_ClearanceInOrder_HeightRemedyStands()
    {
        var assessment = Assess(
            TwoUnits,
            All,
            ("height", Jobs.Outcome(Verdict.NotMet) with { Remedy = Turn(AdjusterKind.Height) })
        );

        Assert.IsType<Remedy.Turn>(assessment.Of("height", "unit/a").Remedy);
    }

    [Fact]
    public void Assess_ClearanceOnlyLostItsProof_HeightRemedyWaitsAllTheSame()
    {
        var assessment = Assess(
            TwoUnits,
            [
                .. All,
                Jobs.Rule(
                    "fresh",
                    check: new Check.Freshness(MeasuredQuantity.Clearance),
                    severity: Severity.Advise
                ),
            ],
            ("fresh@a", Jobs.Outcome(Verdict.NotMet, FindingReason.Stale)),
            ("height@a", Jobs.Outcome(Verdict.NotMet) with { Remedy = Turn(AdjusterKind.Height) })
        );

        Assert.IsType<Remedy.Act>(assessment.Of("height", "unit/a").Remedy);
    }

    [Fact]
    public void Assess_WaivedBreach_IsToldAndLetsOut()
    {
        var context = Jobs.Context with
        {
            Waivers = [new("height", "a", new("lead-01"), "parts on order", Jobs.Day, Jobs.Day)],
        };
        var engine = new RuleEngine(Jobs.Answers(("height@a", Jobs.Outcome(Verdict.NotMet))));

        var assessment = engine.Assess(Jobs.Frame(TwoUnits, All, context), Jobs.Digests);

        var finding = assessment.Of("height", "unit/a");
        Assert.Equal(Verdict.NotMet, finding.Verdict);
        Assert.Equal(Effect.Advise, finding.Effect);
        Assert.Equal("waived by `lead-01` until 2026-04-13: parts on order", finding.LetOut);
        Assert.Equal(Disposition.Release, assessment.Job.Disposition);
    }

    [Fact]
    public void Assess_CheckThrows_IsAFaultThatNamesRuleAndSubject()
    {
        var engine = new RuleEngine((_, _, _) => throw new InvalidOperationException("no such line"));

        var fault = Assert.Throws<EngineFaultException>(() =>
            engine.Assess(Jobs.Frame(TwoUnits, [Height]), Jobs.Digests)
        );

        Assert.Equal("rule `height` could not be judged on `unit/a`: no such line", fault.Message);
    }

    [Fact]
    public void Assess_HigherLayer_TakesThePlaceOfTheRuleBelow()
    {
        var frame = Jobs.Frame(TwoUnits, []);
        var book = new RuleBook(
            [
                Jobs.Pack("site", PackLayer.Site, Height with { Severity = Severity.Stop }),
                Jobs.Pack("here", PackLayer.Jurisdiction, Clearance),
                Jobs.Pack("elsewhere", PackLayer.Jurisdiction, Groomer),
                Jobs.Pack("base", PackLayer.Base, Height),
            ],
            frame.Book.Sheets
        );
        var context = Jobs.Context with { Jurisdictions = ["here"] };

        var assessment = new RuleEngine(Jobs.Answers()).Assess(
            frame with
            {
                Book = book,
                Context = context,
            },
            Jobs.Digests
        );

        Assert.Equal(
            ["clearance", "clearance", "height", "height"],
            assessment.Findings.Select(f => f.Rule).Order(StringComparer.Ordinal)
        );
        Assert.Equal(Severity.Stop, assessment.Of("height", "unit/a").Severity);
    }

    [Fact]
    public void Assess_OtherJurisdictionWithTheSamePacks_HasItsOwnPlan()
    {
        var frame = Jobs.Frame(TwoUnits, []) with
        {
            Book = new([Jobs.Pack("here", PackLayer.Jurisdiction, Safety)], []),
        };
        var engine = new RuleEngine(Jobs.Answers());

        var without = engine.Assess(frame, Jobs.Digests);
        var with = engine.Assess(
            frame with
            {
                Context = Jobs.Context with { Jurisdictions = ["here"] },
            },
            Jobs.Digests
        );

        Assert.Empty(without.Findings);
        Assert.Single(with.Findings);
    }

    [Property(MaxTest = 25)]
    public void Assess_RulesInAnyOrderAndFromManyThreads_IsTheSameToTheByte(int seed)
    {
        var random = new Random(seed);
        var verdicts = Enum.GetValues<Verdict>();
        var answers = All.SelectMany(rule =>
                new[] { $"{rule.Id}@a", $"{rule.Id}@b", $"{rule.Id}@" }.Select(on =>
                    (on, Jobs.Outcome(verdicts[random.Next(verdicts.Length)], FindingReason.Stale))
                )
            )
            .ToArray();
        var expected = Text(Assess(TwoUnits, All, answers));
        Rule[] shuffled = [.. All];
        random.Shuffle(shuffled);
        var engine = new RuleEngine(Jobs.Answers(answers));
        var frame = Jobs.Frame(TwoUnits, shuffled);
        var got = new string[4];

        Parallel.For(0, got.Length, i => got[i] = Text(engine.Assess(frame, Jobs.Digests)));

        Assert.All(got, text => Assert.Equal(expected, text));
    }

    [Theory]
    [InlineData(false, Verdict.Met, Disposition.Release)]
    [InlineData(true, Verdict.Unproven, Disposition.Hold)]
    public void Assess_WithTheRealChecks_BearingsTurnedAfterTheyWereFeltAreHeld(
        bool turnedAfter,
        Verdict verdict,
        Disposition disposition
    )
    {
        var reading = new Reading
        {
            Quantity = MeasuredQuantity.BearingPlay,
            Observed = new Observation.Seen(Condition.Sound),
        };
        var turned = new Adjustment
        {
            Adjuster = AdjusterKind.Bearings,
            Side = Side.Both,
            Amount = new AdjustmentAmount.NotStated(),
        };
        var record = Jobs.Record(
            Jobs.Unit("a", "small", turnedAfter ? [reading, turned] : [turned, reading])
        );
        var frame = Jobs.Frame(
            record,
            [
                Jobs.Rule("play", check: new Check.SoundCondition(MeasuredQuantity.BearingPlay)),
                Jobs.Rule(
                    "read",
                    check: new Check.Presence(
                        MeasuredQuantity.BearingPlay,
                        RequiredPhase.Left,
                        RequiredPlaces.Any
                    )
                ),
            ]
        );

        var assessment = new RuleEngine().Assess(record, frame.Context, frame.Book, Jobs.Digests);

        Assert.Equal(verdict, assessment.Of("play", "unit/a").Verdict);
        Assert.Equal(disposition, assessment.Job.Disposition);
    }

    private static Remedy.Turn Turn(AdjusterKind adjuster) =>
        new(adjuster, 1, 1, [], [new("left end", Length.Zero, Length.Zero)], []);

    private static string Text(Assessment assessment) =>
        JsonSerializer.Serialize(
            assessment.Findings.Select(f => new
            {
                f.Rule,
                f.Subject.Key,
                f.Verdict,
                f.Effect,
                f.Reason,
                f.Statement,
                Remedy = f.Remedy?.ToString(),
            })
        )
        + JsonSerializer.Serialize(assessment.Units)
        + JsonSerializer.Serialize(assessment.Set)
        + JsonSerializer.Serialize(assessment.Job);
}
