using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;
using static ServiceRules.Rules.Tests.Evaluation.Duties.Registers;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

/// <summary>A claim of exemption held against what the timeline of its own record shows.</summary>
public sealed class ClaimAgainstTimelineTests
{
    private const string Shutdown = "08:02:50 machine_shut_down tech-01\n";
    private const string Key = "08:03:20 key_removed tech-01\n";
    private const string Start = "08:10 work_started tech-01\n";
    private const string Stop = "08:30 work_stopped tech-01\n";

    private static readonly ExemptionClaim Minor = new(
        ExemptionKind.MinorServicing,
        Routine: true,
        Repetitive: true,
        Integral: true
    );

    private static SafetyCase Claimed(string timeline, params ProtectiveMeasure[] measures) =>
        (InOrder with { Recorded = InUse })
            .With(timeline)
            .Measured("08:00:30 alternative_measures_recorded tech-01", measures)
            .Claiming(Minor);

    private static ServiceRecord InUse(ServiceRecord record) =>
        record with
        {
            Setting = WorkSetting.InUse,
            HandsInBladeZone = false,
            Tasks = [ServiceTask.HeightCheck],
        };

    private static SafetyCase Reading(SafetyCase job, string? at = null) =>
        job with
        {
            Units =
            [
                new()
                {
                    Id = new("U-1"),
                    Sheet = new("sheet"),
                    Entries =
                    [
                        new Reading
                        {
                            Quantity = MeasuredQuantity.HeightOfCut,
                            Observed = new Observation.Measured(PrintedLength.Parse("3.80 mm").OrThrow()),
                            At = at is null
                                ? null
                                : RecordedTime.Parse($"2026-04-13T{at}:00+01:00").OrThrow(),
                        },
                    ],
                },
            ],
        };

    private static void Lifts(SafetyCase job, Verdict verdict, string? told = null)
    {
        var outcome = job.Judge(EnergyDuty.MinorServicingClaim);

        Assert.Equal(verdict, outcome.Verdict);
        Assert.Contains(told ?? string.Empty, outcome.Statement, StringComparison.Ordinal);
        Assert.Equal(
            verdict == Verdict.Met,
            job.Verdict(EnergyDuty.SourcesIsolated) == Verdict.NotApplicable
        );
    }

    [Theory]
    [InlineData(ProtectiveMeasure.EngineOff)]
    [InlineData(ProtectiveMeasure.KeyRemovedAndKept)]
    public void Judge_MeasureThatTheTimelineShows_Holds(ProtectiveMeasure measure) =>
        Lifts(Claimed(Shutdown + Key + Start + Stop, measure), Verdict.Met);

    [Theory]
    [InlineData(ProtectiveMeasure.EngineOff, Key, "the machine shut down")]
    [InlineData(ProtectiveMeasure.KeyRemovedAndKept, Shutdown, "the key out and kept")]
    [InlineData(ProtectiveMeasure.SecondPersonAtStopControl, Shutdown + Key, "who the second person was")]
    public void Judge_MeasureThatTheTimelineDoesNotShow_IsUnproven(
        ProtectiveMeasure measure,
        string steps,
        string told
    ) => Lifts(Claimed(steps + Start + Stop, measure), Verdict.Unproven, told);

    [Fact]
    public void Judge_OneMeasureNotShownBesideOneThatNoEntryShows_Holds() =>
        Lifts(
            Claimed(Key + Start + Stop, ProtectiveMeasure.EngineOff, ProtectiveMeasure.LongHandledBrush),
            Verdict.Met
        );

    /// <summary>A claim has no lock besides: what a locked job is held against is held against it.</summary>
    [Theory]
    [InlineData("08:15 drive_disengaged tech-01")]
    [InlineData("08:15 energised_task_performed op-01")]
    [InlineData("08:15 isolator_operated tech-01 source=engine_start position=on")]
    [InlineData("08:15 cut_outs_proved tech-01")]
    [InlineData("08:15 units_lowered tech-01")]
    [InlineData("08:15 seen_at_rest tech-01")]
    [InlineData("08:15 machine_shut_down tech-01")]
    public void Judge_MachineInUseWithHandsAtTheUnit_IsUnproven(string entry) =>
        Lifts(
            Claimed(Shutdown + Key + Start + entry + "\n" + Stop, ProtectiveMeasure.EngineOff),
            Verdict.Unproven,
            "while tech-01 was at work"
        );

    [Fact]
    public void Judge_IsolatorTurnedOnWithHandsAtTheUnit_IsToldAsTurnedOn() =>
        Lifts(
            Claimed(
                Shutdown
                    + Key
                    + Start
                    + "08:15 isolator_operated tech-01 source=engine_start position=on\n"
                    + Stop,
                ProtectiveMeasure.EngineOff
            ),
            Verdict.Unproven,
            "the isolator turned on at 08:15 by tech-01 while tech-01 was at work"
        );

    [Fact]
    public void Judge_HandedBackWithHandsAtTheUnit_DoesNotHold() =>
        Lifts(
            Claimed(
                Shutdown + Key + Start + "08:15 handed_back tech-01\n" + Stop,
                ProtectiveMeasure.EngineOff
            ),
            Verdict.NotMet,
            "while tech-01 was at work"
        );

    /// <summary>Looked at once more, and what was done before hands went in, says nothing against it.</summary>
    [Theory]
    [InlineData("08:04 seen_at_rest tech-01\n", "08:15 seen_at_rest tech-01\n")]
    [InlineData("08:01 drive_disengaged tech-01\n08:02 units_lowered tech-01\n", "")]
    public void Judge_StandsStillAllTheWhile_Holds(string before, string amid) =>
        Lifts(
            Claimed(Shutdown + Key + before + Start + amid + Stop, ProtectiveMeasure.EngineOff),
            Verdict.Met
        );

    [Fact]
    public void Judge_SecondPersonNamed_Holds() =>
        Lifts(
            Claimed(Shutdown + Start + Stop, ProtectiveMeasure.SecondPersonAtStopControl) with
            {
                People = [new(new("tech-01"), JobRole.Performs), new(new("lead-01"), JobRole.Leads)],
            },
            Verdict.Met
        );

    [Theory]
    [InlineData("08:09 machine_started tech-01", ProtectiveMeasure.EngineOff)]
    [InlineData("08:15 machine_started tech-01", ProtectiveMeasure.EngineOff)]
    [InlineData("08:15 machine_started tech-01", ProtectiveMeasure.KeyRemovedAndKept)]
    [InlineData("08:31 guards_refitted tech-01", ProtectiveMeasure.GuardsInPlace)]
    [InlineData("08:15 machine_started op-01", ProtectiveMeasure.SingleOperatorControl)]
    public void Judge_MeasureThatTheTimelineContradicts_DoesNotHold(string line, ProtectiveMeasure measure) =>
        Lifts(
            Claimed(Shutdown + Key + Start + Stop, measure, ProtectiveMeasure.LongHandledBrush).And(line),
            Verdict.NotMet,
            "is said, and the record shows"
        );

    [Theory]
    [InlineData("08:09 machine_started tech-01", null, Verdict.NotMet)]
    [InlineData("08:12 machine_started tech-01", "08:15", Verdict.NotMet)]
    [InlineData("08:12 machine_started tech-01", null, Verdict.Unproven)]
    [InlineData("08:12 machine_started tech-01", "08:11", Verdict.Unproven)]
    [InlineData("08:35 machine_started tech-01", null, Verdict.Met)]
    public void Judge_GaugeLaidOnWhileTheMachineRan_IsAtTheBlades(string line, string? at, Verdict verdict) =>
        Lifts(
            Reading(Claimed(Shutdown + Start + Stop, ProtectiveMeasure.GuardsInPlace).And(line), at),
            verdict
        );

    [Fact]
    public void Judge_TestRunBeforeTheWorkIsOver_DoesNotHold()
    {
        var job = Claimed(Shutdown + Start + Stop, ProtectiveMeasure.GuardsInPlace)
            .And("08:12 test_energised tech-01")
            .And("08:25 test_ended tech-01");

        Lifts(job, Verdict.NotMet, "the machine energised for a test");
        Assert.Equal(Verdict.NotMet, job.Verdict(EnergyDuty.NoHandsWhileEnergised));
    }

    [Theory]
    [InlineData(EntryMark.LateEntry, "16:00", Verdict.Unproven)]
    [InlineData(EntryMark.LateEntry, null, Verdict.Unproven)]
    [InlineData(EntryMark.Transcription, "16:00", Verdict.Unproven)]
    [InlineData(EntryMark.LateEntry, "08:05", Verdict.Met)]
    [InlineData(EntryMark.AtTheTime, null, Verdict.Met)]
    public void Judge_ClaimLabelledAsEnteredAfterWorkBegan_IsNotShownInTime(
        EntryMark mark,
        string? received,
        Verdict verdict
    )
    {
        var job = Claimed(Shutdown + Start + Stop, ProtectiveMeasure.EngineOff);
        var late = job with
        {
            Entries =
            [
                .. job.Entries.Select(entry =>
                    entry.Kind != TimelineEventKind.ExemptionClaimed
                        ? entry
                        : entry with
                        {
                            Mark = mark,
                            ReceivedAt = received is null
                                ? null
                                : RecordedTime.Parse($"2026-04-13T{received}:00+01:00").OrThrow(),
                        }
                ),
            ],
        };

        Lifts(late, verdict);
    }

    [Theory]
    [InlineData("closed", null, Verdict.NotMet)]
    [InlineData("closed", "battery_disconnect", Verdict.NotMet)]
    [InlineData("closed", "fuel_valve", Verdict.Met)]
    [InlineData("blocked", null, Verdict.Met)]
    [InlineData("off", null, Verdict.Met)]
    public void Judge_ClosedIsolatorOfElectricity_IsLive(string position, string? isolator, Verdict verdict)
    {
        var entries = MakeSafe.Complete.Entries;
        var turned = entries.First(entry =>
            entry.Kind == TimelineEventKind.IsolatorOperated
            && entry.Source is SourceReference.One { Source.Text: "engine_start" }
        );
        var job = InOrder with
        {
            Entries = entries.Replace(
                turned,
                turned with
                {
                    Position = Enum.Parse<IsolatorPosition>(position, ignoreCase: true),
                    Isolator = isolator,
                }
            ),
        };

        var outcome = job.Judge(EnergyDuty.SourcesIsolated);

        Assert.Equal(verdict, outcome.Verdict);
        Assert.Equal(
            verdict == Verdict.NotMet,
            outcome.Statement.Contains("a closed isolator of electricity is live", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Judge_ClosedValve_IsOff()
    {
        var job = InOrder with
        {
            Entries =
            [
                .. InOrder.Entries.Select(entry =>
                    entry.Source is SourceReference.One { Source.Text: "hydraulic" }
                    && entry.Kind is TimelineEventKind.IsolatorOperated or TimelineEventKind.LockApplied
                        ? entry with
                        {
                            Position = IsolatorPosition.Closed,
                        }
                        : entry
                ),
            ],
        };

        Assert.Equal(Verdict.Met, job.Verdict(EnergyDuty.SourcesIsolated));
        Assert.Equal(Verdict.Met, job.Verdict(EnergyDuty.DeviceHoldsOff));
    }

    /// <summary>A padlock on a plug lead of a pedestrian machine, whose procedure says that no lock fits there.</summary>
    [Fact]
    public void Judge_LockWhereTheProcedureSaysThatNoneFits_IsUnproven()
    {
        var job = InOrder with
        {
            Procedure = InOrder.Procedure! with
            {
                Sources =
                [
                    .. InOrder.Procedure!.Sources.Select(source =>
                        source.Id.Text == "engine_start" ? source with { Lockable = false } : source
                    ),
                ],
            },
        };

        var outcome = job.OfMachineWith([.. job.Procedure!.Sources]).Judge(EnergyDuty.DeviceHoldsOff);

        Assert.Equal(Verdict.Met, InOrder.Verdict(EnergyDuty.DeviceHoldsOff));
        Assert.Equal(Verdict.Unproven, outcome.Verdict);
        Assert.Contains("takes no lock", outcome.Statement, StringComparison.Ordinal);
    }

    /// <summary>Alone, and put in charge by himself: the job lock is still no lock of his own.</summary>
    [Fact]
    public void Judge_JobLockOfSomebodyAlone_IsNotTheirOwn()
    {
        var job = (InOrder with { Locks = [Red("L-11", null), Red("L-12", null)] }).And(
            "07:59 primary_assigned tech-01",
            entry => entry with { Others = [new("tech-01")], Count = 1 }
        );

        Assert.Equal(Verdict.Met, InOrder.Verdict(EnergyDuty.OwnDeviceThroughWork));
        Assert.Equal(Verdict.NotMet, job.Verdict(EnergyDuty.OwnDeviceThroughWork));
    }

    [Theory]
    [InlineData("units_lowered", "", Verdict.Met)]
    [InlineData("unit_supported", "", Verdict.Met)]
    [InlineData("seen_at_rest", "", Verdict.NotMet)]
    [InlineData("unit_supported", Again, Verdict.NotMet)]
    [InlineData("unit_supported", "08:40 unit_supported tech-01\n" + Again, Verdict.Met)]
    public void Judge_UnitSupportedForOneLowered_DoesUntilARun(string step, string after, Verdict verdict)
    {
        var check = new Check.RequiredEvent(
            [TimelineEventKind.UnitsLowered, TimelineEventKind.UnitSupported],
            RequiredPer.Job,
            RequiredWhen.BeforeWork,
            null
        );
        var job = InOrder.With($"08:01:40 {step} tech-01\n" + Start + Stop + after);

        Assert.Equal(verdict, job.Judge(check).Verdict);
    }

    private const string Again =
        "08:35 test_energised tech-01\n08:36 test_ended tech-01\n08:45 work_started tech-01\n08:50 work_stopped tech-01\n";
}
