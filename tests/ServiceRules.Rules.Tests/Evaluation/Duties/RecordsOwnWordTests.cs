using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;
using static ServiceRules.Rules.Tests.Evaluation.Duties.Registers;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

/// <summary>What a record says of itself, held against what else it shows.</summary>
public sealed class RecordsOwnWordTests
{
    private static readonly ExemptionClaim Minor = new(
        ExemptionKind.MinorServicing,
        Routine: true,
        Repetitive: true,
        Integral: true
    );

    private static readonly Procedure Bench = SafetyCase.RideOn with
    {
        Id = new("P-bench"),
        Place = WorkPlace.OnBench,
        Sources = [SafetyCase.Source("gravity", "raised unit", null) with { Stored = true }],
    };

    private static JobFrame OnBench(string timeline, Procedure? bench = null)
    {
        var told = new SafetyCase().With(timeline).Frame();
        return FrameBuilder.Build(
            told.Record with
            {
                Place = WorkPlace.OnBench,
            },
            told.Context with
            {
                Procedures = [bench ?? Bench, SafetyCase.RideOn],
            },
            told.Book
        );
    }

    private static CheckOutcome Judge(JobFrame frame, Check check) =>
        CheckEvaluation.Evaluate(SafetyCase.AnyRule with { Check = check }, frame, null);

    private static SafetyCase Claimed(string timeline, ExemptionClaim? claim = null) =>
        (
            InOrder with
            {
                Recorded = record =>
                    record with
                    {
                        Setting = WorkSetting.InUse,
                        HandsInBladeZone = false,
                        Tasks = [ServiceTask.HeightCheck],
                    },
            }
        )
            .With(timeline)
            .Measured("08:00:30 alternative_measures_recorded tech-01", ProtectiveMeasure.LongHandledBrush)
            .Claiming(claim ?? Minor);

    [Fact]
    public void Place_BenchWithNoStepOfAMachine_IsBelieved()
    {
        var frame = OnBench(
            "08:00 unit_supported tech-01\n08:05 work_started tech-01\n08:20 work_stopped tech-01\n08:21 area_inspected tech-01"
        );

        Assert.Empty(frame.PlaceAgainst);
        Assert.False(frame.HasIsolation);
    }

    [Theory]
    [InlineData("08:10 machine_started tech-01")]
    [InlineData("08:10 test_energised tech-01")]
    [InlineData("08:01 machine_shut_down tech-01")]
    [InlineData("08:01 key_removed tech-01")]
    [InlineData("08:02 isolator_operated tech-01 source=engine_start position=off")]
    [InlineData("08:03 lock_applied tech-01 source=engine_start lock=L-11")]
    [InlineData("08:03 stored_energy_released tech-01 source=hydraulic")]
    [InlineData("08:22 cut_outs_proved tech-01")]
    public void Place_BenchWithAStepOfAMachine_IsJudgedAsOnTheMachine(string line)
    {
        var frame = OnBench(
            "08:00 unit_supported tech-01\n08:05 work_started tech-01\n08:20 work_stopped tech-01\n" + line
        );
        var outcome = Judge(frame, new Check.EnergyControl(EnergyDuty.PlaceAsRecorded));

        Assert.True(frame.HasIsolation);
        Assert.Equal(WorkPlace.OnMachine, frame.Record.Place);
        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains("judged as work on the machine", outcome.Statement, StringComparison.Ordinal);
        Assert.NotEqual(Verdict.Met, Judge(frame, new Check.Protection()).Verdict);
    }

    /// <summary>A unit is handed back from the bench too.</summary>
    [Fact]
    public void Place_BenchHandedBack_StaysTheBench() =>
        Assert.Equal(
            WorkPlace.OnBench,
            OnBench(
                "08:00 unit_supported tech-01\n08:05 work_started tech-01\n08:20 work_stopped tech-01\n08:25 handed_back tech-01"
            ).Record.Place
        );

    /// <summary>A raised unit on the bench is let down there, and proven to rest.</summary>
    [Theory]
    [InlineData("08:01 stored_energy_released tech-01 source=gravity")]
    [InlineData("08:01 isolation_verified tech-01 source=all")]
    public void Place_BenchWithAStepOfItsOwnSource_IsBelieved(string line) =>
        Assert.Empty(OnBench(line).PlaceAgainst);

    [Fact]
    public void Place_BenchThatIsSwitchedOff_KeepsItsOwnSteps()
    {
        var grinder = Bench with { Sources = [SafetyCase.Source("mains_supply", "mains", "wall isolator")] };

        Assert.Empty(OnBench("08:01 machine_shut_down tech-01", grinder).PlaceAgainst);
    }

    [Theory]
    [InlineData("", "does not show the machine shut down")]
    [InlineData("08:02 machine_shut_down tech-01\n08:05 machine_started tech-01\n", "does not show")]
    [InlineData("08:02 machine_shut_down tech-01\n08:15 machine_started op-01\n", "with somebody at work")]
    [InlineData(
        "08:02 machine_shut_down tech-01\n08:15 source_added tech-01 source=groomer\n",
        "a source added"
    )]
    public void Claim_NotShownToStandStillOrWidened_IsUnproven(string lines, string told)
    {
        var outcome = Claimed(lines + "08:10 work_started tech-01\n08:30 work_stopped tech-01")
            .Duty(EnergyDuty.MinorServicingClaim);

        Assert.Equal(Verdict.Unproven, outcome.Verdict);
        Assert.Contains(told, outcome.Statement, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("08:02 machine_shut_down tech-01")]
    [InlineData("08:02 key_removed tech-01")]
    [InlineData("08:02 isolator_operated tech-01 source=engine_start position=off")]
    public void Claim_StandingStillInSomeWay_Holds(string line) =>
        Assert.Equal(
            Verdict.Met,
            Claimed(line + "\n08:10 work_started tech-01\n08:30 work_stopped tech-01")
                .VerdictOf(EnergyDuty.MinorServicingClaim)
        );

    [Theory]
    [InlineData("reel_wedged")]
    [InlineData("unit_supported")]
    public void Claim_HandsAtTheUnitAllTheSame_DoesNotHold(string step)
    {
        var outcome = Claimed(
                $"08:02 machine_shut_down tech-01\n08:10 work_started tech-01\n08:15 {step} tech-01\n08:30 work_stopped tech-01"
            )
            .Duty(EnergyDuty.MinorServicingClaim);

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains("said to have stayed out", outcome.Statement, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("ghost-9", Verdict.Unproven, "does not have")]
    [InlineData("op-01", Verdict.Met, "does not show as authorised")]
    [InlineData("tech-01", Verdict.Met, "whose own hands")]
    [InlineData("lead-01", Verdict.Met, null)]
    public void Claim_WhoeverDecidedIt_IsHeldAgainstTheRegister(string by, Verdict verdict, string? told)
    {
        var outcome = Claimed(
                "08:02 machine_shut_down tech-01\n08:10 work_started tech-01\n08:30 work_stopped tech-01",
                Minor with
                {
                    DecidedBy = new(by),
                }
            )
            .Duty(EnergyDuty.MinorServicingClaim);

        Assert.Equal(verdict, outcome.Verdict);
        Assert.Equal(
            told is not null,
            outcome
                .Notices.Append(outcome.Statement)
                .Any(line => line.Contains(told ?? "decided by lead-01,", StringComparison.Ordinal))
        );
    }

    [Theory]
    [InlineData("measures=GuardsInPlace", Verdict.Met)]
    [InlineData("measures=EyeProtection", Verdict.NotMet)]
    [InlineData("measures=EngineOff", Verdict.NotMet)]
    [InlineData("measures=KeyRemovedAndKept,EyeProtection", Verdict.NotMet)]
    [InlineData("measures=SlowestReelSpeed", Verdict.Unproven)]
    public void Measures_BeforeATestRun_MustKeepPeopleFromWhatTurns(string members, Verdict verdict) =>
        Assert.Equal(
            verdict,
            InOrder
                .With(
                    $"08:40 alternative_measures_recorded tech-01 {members}\n08:45 test_energised tech-01\n08:50 test_ended tech-01"
                )
                .VerdictOf(EnergyDuty.EnergisedMeasuresFirst)
        );

    [Theory]
    [InlineData("tech-01", Verdict.Met)]
    [InlineData("lead-01", Verdict.Met)]
    [InlineData("op-01", Verdict.Unproven)]
    public void Measures_NotedBySomebodyWithNoPartInTheRun_ProveNothing(string by, Verdict verdict) =>
        Assert.Equal(
            verdict,
            InOrder
                .With(
                    $"08:40 alternative_measures_recorded {by} measures=GuardsInPlace\n08:45 test_energised tech-01\n08:50 test_ended tech-01"
                )
                .VerdictOf(EnergyDuty.EnergisedMeasuresFirst)
        );

    [Theory]
    [InlineData("guards off to see the blades", Verdict.Unproven)]
    [InlineData("ran it without the guards", Verdict.Unproven)]
    [InlineData("guards on, engine off before", Verdict.Met)]
    [InlineData("everybody well away", Verdict.Unproven, false)]
    public void Measures_WordsThatSayGuardsWereOff_AreTold(
        string method,
        Verdict verdict,
        bool isNamed = true
    )
    {
        var job = InOrder
            .With("08:45 test_energised tech-01\n08:50 test_ended tech-01")
            .And(
                "08:40 alternative_measures_recorded tech-01",
                entry =>
                    entry with
                    {
                        Measures = isNamed ? [ProtectiveMeasure.GuardsInPlace] : [],
                        Method = method,
                    }
            );

        Assert.Equal(verdict, job.VerdictOf(EnergyDuty.EnergisedMeasuresFirst));
    }

    [Fact]
    public void Measures_ThatTheProcedureAsksBeforeATest_AreAllAsked()
    {
        var job = InOrder.With(
            "08:40 alternative_measures_recorded tech-01 measures=GuardsInPlace\n08:45 test_energised tech-01\n08:50 test_ended tech-01"
        );
        var asked = job with
        {
            Procedure = job.Procedure! with
            {
                TestMeasures = [ProtectiveMeasure.GuardsInPlace, ProtectiveMeasure.ExclusionZone],
            },
        };

        Assert.Equal(Verdict.Met, job.VerdictOf(EnergyDuty.EnergisedMeasuresFirst));
        Assert.Equal(Verdict.NotMet, asked.VerdictOf(EnergyDuty.EnergisedMeasuresFirst));
    }

    [Theory]
    [InlineData("branch cut and levered out with a bar", Verdict.Met)]
    [InlineData("hooked stick", Verdict.Met)]
    [InlineData("from outside, no hands in the reel", Verdict.Met)]
    [InlineData("long pliers", Verdict.Met)]
    [InlineData("hardwood stick, hands never near the reel", Verdict.Met)]
    [InlineData("hook held by hand from outside", Verdict.Met)]
    [InlineData("screwdriver", Verdict.Met)]
    [InlineData("reel held by hand, pulled out with a hook", Verdict.Unproven)]
    [InlineData("spanner", Verdict.Unproven)]
    [InlineData("kicked it free", Verdict.Unproven)]
    [InlineData("à la main", Verdict.Unproven)]
    [InlineData("hand tool", Verdict.Unproven)]
    [InlineData("by hand", Verdict.NotMet)]
    public void Blockage_WordsOfHow_MustKeepHandsOut(string method, Verdict verdict)
    {
        var job = new SafetyCase().And(
            "09:00 blockage_cleared_with_tool tech-01",
            entry => entry with { Method = method }
        );

        Assert.Equal(verdict, job.VerdictOf(EnergyDuty.BlockageTool));
    }

    [Fact]
    public void Blockage_ToolNamedAsAMeasureOrByTheProcedure_KeepsHandsOut()
    {
        SafetyCase Cleared(Func<TimelineEvent, TimelineEvent> how) =>
            new SafetyCase().And("09:00 blockage_cleared_with_tool tech-01", how);
        var named = Cleared(entry =>
            entry with
            {
                Method = "reel key",
                Measures = [ProtectiveMeasure.ExtensionTool],
            }
        );
        var key = Cleared(entry => entry with { Method = "turned out with the reel key" });

        Assert.Equal(Verdict.Met, named.VerdictOf(EnergyDuty.BlockageTool));
        Assert.Equal(Verdict.Unproven, key.VerdictOf(EnergyDuty.BlockageTool));
        Assert.Equal(
            Verdict.Met,
            (key with { Procedure = key.Procedure! with { BlockageTools = ["Reel key"] } }).VerdictOf(
                EnergyDuty.BlockageTool
            )
        );
    }

    [Theory]
    [InlineData("tried to start: it fired", Verdict.Unproven)]
    [InlineData("engine ran", Verdict.Unproven)]
    [InlineData("pressure remained in the line", Verdict.Unproven)]
    [InlineData("tried to start: nothing moved, no pressure left", Verdict.Met)]
    [InlineData("start attempt, engine did not start", Verdict.Met)]
    [InlineData("start_attempt_and_gauge", Verdict.Met)]
    [InlineData("skipped", Verdict.Unproven)]
    [InlineData("not tested", Verdict.Unproven)]
    [InlineData("assumed dead, nobody tried", Verdict.Unproven)]
    [InlineData("starter cranked once", Verdict.Unproven)]
    [InlineData("gauge 140 bar", Verdict.Unproven)]
    [InlineData("will test later", Verdict.Unproven)]
    [InlineData("lever moved and unit dropped", Verdict.Unproven)]
    [InlineData("couldn't be tried, no time", Verdict.Unproven)]
    [InlineData("starter cranked, nothing happened", Verdict.Met)]
    [InlineData("gauge 140 bar, then bled to 0 bar", Verdict.Met)]
    [InlineData("gauge 0 bar", Verdict.Met)]
    [InlineData("nothing assumed, no step skipped, each tried", Verdict.Met)]
    [InlineData("did not start, will not turn", Verdict.Met)]
    [InlineData("nothing still live", Verdict.Met)]
    [InlineData("engine turned off, key turned, reel would not turn", Verdict.Met)]
    public void Verification_WordsThatSayTheOpposite_ProveNothing(string method, Verdict verdict)
    {
        var job = InOrder with
        {
            Entries =
            [
                .. InOrder.Entries.Select(entry =>
                    entry.Kind == TimelineEventKind.IsolationVerified ? entry with { Method = method } : entry
                ),
            ],
        };

        Assert.Equal(verdict, job.VerdictOf(EnergyDuty.IsolationVerified));
        Assert.Equal(verdict, job.Judge(new Check.Protection()).Verdict);
    }

    [Theory]
    [InlineData("not released, accumulator still charged", Verdict.Unproven)]
    [InlineData("pressure still there", Verdict.Unproven)]
    [InlineData("skipped", Verdict.Unproven)]
    [InlineData("to be bled later", Verdict.Unproven)]
    [InlineData("levers moved both ways, units down", Verdict.Met)]
    [InlineData("units moved down to the floor, pressure released", Verdict.Met)]
    public void Release_WordsThatSayTheOpposite_ReleaseNothing(string method, Verdict verdict)
    {
        var job = Saying(TimelineEventKind.StoredEnergyReleased, method);
        var outcome = job.Duty(EnergyDuty.StoredEnergyReleased);

        Assert.Equal(verdict, outcome.Verdict);
        Assert.Equal(verdict, job.Judge(new Check.Protection()).Verdict);
        Assert.Equal(
            verdict is Verdict.Unproven,
            outcome.Statement.Contains($"`{method}`", StringComparison.Ordinal)
        );
    }

    [Theory]
    [InlineData("seat switch did not stop the engine", Verdict.Unproven)]
    [InlineData("not tried, no time", Verdict.Unproven)]
    [InlineData("reel cut-out bridged", Verdict.Unproven)]
    [InlineData("assumed", Verdict.Unproven)]
    [InlineData("untested", Verdict.Unproven)]
    [InlineData("engine kept running", Verdict.Unproven)]
    [InlineData("engine stopped when the seat was left, did not start without it", Verdict.Met)]
    [InlineData("engine kept running until the seat was left, then stopped", Verdict.Met)]
    [InlineData("seat switch stops the engine", Verdict.Met)]
    public void CutOuts_WordsThatSayTheOpposite_ProveNothing(string method, Verdict verdict)
    {
        var check = FoundationChecks.After(TimelineEventKind.CutOutsProved);
        var job = Saying(TimelineEventKind.CutOutsProved, method);

        Assert.Equal(verdict, job.Judge(check).Verdict);
        Assert.Equal(Verdict.Met, job.And("09:56 cut_outs_proved tech-01").Judge(check).Verdict);
    }

    private static SafetyCase Saying(TimelineEventKind kind, string method) =>
        InOrder with
        {
            Entries =
            [
                .. InOrder.Entries.Select(entry =>
                    entry.Kind == kind ? entry with { Method = method } : entry
                ),
            ],
        };
}
