using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;
using static ServiceRules.Rules.Tests.Evaluation.Duties.Registers;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

public sealed class ExemptionDutiesTests
{
    private static readonly ExemptionClaim Minor = new(
        ExemptionKind.MinorServicing,
        Routine: true,
        Repetitive: true,
        Integral: true
    );

    private static readonly ExemptionClaim Plug = new(ExemptionKind.CordAndPlug);

    /// <summary>A scraper brushed while mowing, by an operator who is not authorised to lock out.</summary>
    private static SafetyCase Scraper { get; } =
        (InOrder with { People = [new(new("op-01"), JobRole.Performs)] })
            .With(
                """
                08:01 machine_shut_down op-01
                08:03 work_started op-01
                08:05 work_stopped op-01
                08:06 machine_started op-01
                """
            )
            .Measured("08:02 alternative_measures_recorded op-01", ProtectiveMeasure.LongHandledBrush)
            .Claiming(Minor, "op-01") with
        {
            Recorded = InUse,
        };

    /// <summary>A corded grinder, its plug pulled and kept by the one who works.</summary>
    private static SafetyCase Corded { get; } =
        (
            InOrder with
            {
                Procedure = InOrder.Procedure! with
                {
                    Sources = [SafetyCase.Source("mains_cord", "mains cord", "plug")],
                },
            }
        )
            .OfMachineWith(SafetyCase.Source("mains_cord", "mains cord", "plug"))
            .With(
                """
                08:01 plug_removed tech-01 source=mains_cord
                08:02 plug_control_confirmed tech-01 source=mains_cord
                08:04 work_started tech-01
                08:30 work_stopped tech-01
                """
            )
            .Claiming(Plug);

    private static ServiceRecord InUse(ServiceRecord record) =>
        record with
        {
            Setting = WorkSetting.InUse,
            HandsInBladeZone = false,
            Tasks = [ServiceTask.DailyCheck],
        };

    private static SafetyCase Having(BenchEntry[] entries, ServiceTask task = ServiceTask.DailyCheck) =>
        Scraper with
        {
            Recorded = record => InUse(record) with { Tasks = [task] },
            Units =
            [
                new()
                {
                    Id = new("U-1"),
                    Sheet = new("sheet"),
                    Entries = [.. entries],
                },
            ],
        };

    private static BenchEntry BenchEntryOf(string named) =>
        named switch
        {
            "feeler" => Read(
                MeasuredQuantity.Clearance,
                new Observation.FeelerTest([PrintedLength.Parse("0.002 in").OrThrow()], Passes: true)
            ),
            "roller" => Read(
                MeasuredQuantity.FrontRollerOnPlate,
                new Observation.FeelerTest([PrintedLength.Parse("0.002 in").OrThrow()], Passes: true)
            ),
            "paper" => Read(MeasuredQuantity.Edge, new Observation.Paper(PaperResult.Cuts)),
            "contact" => Read(MeasuredQuantity.Clearance, new Observation.Contact(ContactState.Light)),
            "play" => Read(MeasuredQuantity.BearingPlay, new Observation.Seen(Condition.Sound)),
            "height" => Read(
                MeasuredQuantity.HeightOfCut,
                new Observation.Measured(PrintedLength.Parse("4.00 mm").OrThrow())
            ),
            "guards" => Read(MeasuredQuantity.Guards, new Observation.Seen(Condition.Sound)),
            "turn" => new Adjustment
            {
                Adjuster = AdjusterKind.Clearance,
                Side = Side.Both,
                Direction = AdjustDirection.Close,
                Amount = new AdjustmentAmount.Steps(1),
            },
            "grind" => new Grinding { Kind = GrindingKind.ReelSpin },
            "part" => new PartFitted { Part = PartKind.Bedknife },
            _ => throw new ArgumentOutOfRangeException(nameof(named), named, "not an entry"),
        };

    private static Reading Read(MeasuredQuantity quantity, Observation observed) =>
        new() { Quantity = quantity, Observed = observed };

    public static TheoryData<string> Spoilt =>
        ["workshop", "hands", "unsaid", "routine", "no measures", "late measures", "unnamed measures"];

    [Fact]
    public void Judge_MinorServicingThatHolds_LiftsIsolationAndWhoMayWork()
    {
        Assert.Equal(Verdict.Met, Scraper.Verdict(EnergyDuty.MinorServicingClaim));
        Assert.Equal(Verdict.NotApplicable, Scraper.Verdict(EnergyDuty.WorkByAuthorised));
        Assert.Equal(Verdict.NotApplicable, Scraper.Verdict(EnergyDuty.WrittenProcedure));
        Assert.Equal(Verdict.NotApplicable, Scraper.Judge(new Check.Protection()).Verdict);
        Assert.Equal(Verdict.NotApplicable, Scraper.Judge(FoundationChecks.Locked).Verdict);
    }

    [Theory]
    [MemberData(nameof(Spoilt))]
    public void Judge_MinorServicingThatDoesNotHold_IsNotMetAndLiftsNothing(string why)
    {
        var measured = TimelineEventKind.AlternativeMeasuresRecorded;
        var job = why switch
        {
            "workshop" => Scraper with { Recorded = record => record with { HandsInBladeZone = false } },
            "hands" => Scraper with
            {
                Recorded = record => record with { Setting = WorkSetting.InUse, HandsInBladeZone = true },
            },
            "unsaid" => Scraper with { Recorded = record => record with { Setting = WorkSetting.InUse } },
            "routine" => Scraper.Claiming(Minor with { Routine = null }, "op-01"),
            "no measures" => Scraper.Without(measured),
            "late measures" => Scraper
                .Without(measured)
                .Measured("08:04 alternative_measures_recorded op-01", ProtectiveMeasure.GuardsInPlace),
            _ => Scraper.Without(measured).Measured("08:02 alternative_measures_recorded op-01"),
        };

        Assert.Equal(Verdict.NotMet, job.Verdict(EnergyDuty.MinorServicingClaim));
        Assert.Equal(Verdict.NotMet, job.Verdict(EnergyDuty.WorkByAuthorised));
    }

    [Fact]
    public void Judge_MinorServicingThatHolds_SaysWhoDecidedIt()
    {
        Assert.StartsWith(
            "Minor servicing in use, by claim, decided by op-01, who entered it: ",
            Scraper.Judge(EnergyDuty.MinorServicingClaim).Statement,
            StringComparison.Ordinal
        );

        var decided = Scraper
            .Without(TimelineEventKind.ExemptionClaimed)
            .Claiming(Minor with { DecidedBy = new("lead-01") }, "op-01");

        Assert.Contains(
            "by claim, decided by lead-01",
            decided.Judge(EnergyDuty.MinorServicingClaim).Statement,
            StringComparison.Ordinal
        );
        Assert.Contains(
            "by claim, decided by lead-01",
            decided.Judge(EnergyDuty.IsolationVerified).Statement,
            StringComparison.Ordinal
        );
    }

    public static TheoryData<string, string> AtTheBlades =>
        new()
        {
            { "feeler", "a feeler between the blades on U-1" },
            { "paper", "paper tried at the blades on U-1" },
            { "contact", "the contact felt over the blades on U-1" },
            { "play", "a reading at the reel on U-1" },
            { "turn", "an adjuster turned on U-1" },
            { "grind", "metal ground off on U-1" },
            { "part", "a part fitted on U-1" },
            { "task", "the touch-up as the task" },
        };

    /// <summary>Hands out of the reach of the blades by the record's own word, and in it by its bench log.</summary>
    [Theory]
    [MemberData(nameof(AtTheBlades))]
    public void Judge_MinorServicingAgainstTheBenchLog_IsNotMetAndLiftsNothing(string entry, string told)
    {
        var job = entry == "task" ? Having([], ServiceTask.TouchUp) : Having([BenchEntryOf(entry)]);

        var outcome = job.Judge(EnergyDuty.MinorServicingClaim);

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains(told, outcome.Statement, StringComparison.Ordinal);
        Assert.Contains(entry == "task" ? "/tasks/0" : "/units/0/entries/0", outcome.Evidence);
        Assert.Equal(Verdict.NotMet, job.Verdict(EnergyDuty.WorkByAuthorised));
    }

    [Theory]
    [InlineData("height")]
    [InlineData("roller")]
    [InlineData("guards")]
    public void Judge_MinorServicingWithReadingsAwayFromTheBlades_Holds(string entry) =>
        Assert.Equal(Verdict.Met, Having([BenchEntryOf(entry)]).Verdict(EnergyDuty.MinorServicingClaim));

    [Theory]
    [InlineData(Verdict.Unproven, ProtectiveMeasure.Other)]
    [InlineData(Verdict.NotMet, ProtectiveMeasure.EyeProtection)]
    [InlineData(Verdict.NotMet, ProtectiveMeasure.HairAndClothingSecured, ProtectiveMeasure.EyeProtection)]
    [InlineData(Verdict.Unproven, ProtectiveMeasure.ExclusionZone)]
    [InlineData(Verdict.Met, ProtectiveMeasure.EyeProtection, ProtectiveMeasure.EngineOff)]
    [InlineData(Verdict.Met, ProtectiveMeasure.ExtensionTool)]
    public void Judge_MinorServicing_AsksForAMeasureAgainstTheEnergy(
        Verdict verdict,
        params ProtectiveMeasure[] measures
    )
    {
        var job = Scraper
            .Without(TimelineEventKind.AlternativeMeasuresRecorded)
            .Measured("08:02 alternative_measures_recorded op-01", measures);

        Assert.Equal(verdict, job.Verdict(EnergyDuty.MinorServicingClaim));
        Assert.Equal(
            verdict == Verdict.Met ? Verdict.NotApplicable : Verdict.NotMet,
            job.Verdict(EnergyDuty.WorkByAuthorised)
        );
    }

    [Theory]
    [InlineData(TimelineEventKind.WorkStarted)]
    [InlineData(TimelineEventKind.WorkStarted, TimelineEventKind.WorkStopped)]
    public void Judge_ClaimWithoutTheStartOfWork_DoesNotHold(params TimelineEventKind[] left)
    {
        var minor = Scraper;
        var plug = Corded;
        foreach (var kind in left)
        {
            (minor, plug) = (minor.Without(kind), plug.Without(kind));
        }

        Assert.Equal(Verdict.NotMet, minor.Verdict(EnergyDuty.MinorServicingClaim));
        Assert.Equal(
            left.Length > 1 ? Verdict.Met : Verdict.NotMet,
            plug.Verdict(EnergyDuty.CordAndPlugClaim)
        );
    }

    [Fact]
    public void Judge_MinorServicingBeforeWork_WaitsForItsMeasures()
    {
        var job = (Scraper with { IsSignedOff = false, Entries = [] }).Claiming(Minor, "op-01");

        var outcome = job.Judge(EnergyDuty.MinorServicingClaim);

        Assert.Equal((Verdict.Unproven, FindingReason.InProgress), (outcome.Verdict, outcome.Reason));
    }

    [Fact]
    public void Judge_CordAndPlugThatHolds_LiftsIsolation()
    {
        Assert.Equal(Verdict.Met, Corded.Verdict(EnergyDuty.CordAndPlugClaim));
        Assert.Equal(Verdict.NotApplicable, Corded.Judge(new Check.Protection()).Verdict);
    }

    /// <summary>A plug that is kept is no reason to leave the guards off the grinder.</summary>
    [Theory]
    [InlineData(TimelineEventKind.GuardsRefitted, RequiredWhen.AfterWork)]
    [InlineData(TimelineEventKind.SeenAtRest, RequiredWhen.BeforeWork)]
    public void Judge_CordAndPlugThatHolds_LiftsNoStepBesideIsolation(
        TimelineEventKind step,
        RequiredWhen when
    )
    {
        var check = new Check.RequiredEvent([step], RequiredPer.Job, when, null);

        Assert.Equal(Verdict.NotMet, Corded.Judge(check).Verdict);
        Assert.Equal(Verdict.NotApplicable, Scraper.Judge(check).Verdict);
    }

    [Fact]
    public void Judge_CordAndPlugOfARideOn_NamesTheOtherSources()
    {
        var outcome = Corded.OfMachineWith([.. SafetyCase.RideOn.Sources]).Judge(EnergyDuty.CordAndPlugClaim);

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains("raised unit", outcome.Statement, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("08:20 machine_started tech-02")]
    [InlineData("08:10 work_started tech-02")]
    [InlineData("08:03 source_added tech-01 source=charger")]
    public void Judge_PlugNotKeptByEverybodyThroughout_DoesNotHold(string line) =>
        Assert.Equal(Verdict.NotMet, Corded.And(line).Verdict(EnergyDuty.CordAndPlugClaim));

    [Fact]
    public void Judge_WorkAgainAfterAStart_NeedsThePlugAgain()
    {
        var again = Corded
            .And("08:35 machine_started tech-01")
            .And("08:45 work_started tech-01")
            .And("08:50 work_stopped tech-01");

        Assert.Equal(Verdict.NotMet, again.Verdict(EnergyDuty.CordAndPlugClaim));
        Assert.Equal(
            Verdict.Met,
            again
                .And("08:40 plug_removed tech-01 source=mains_cord")
                .And("08:41 plug_control_confirmed tech-01 source=mains_cord")
                .Verdict(EnergyDuty.CordAndPlugClaim)
        );
    }

    [Theory]
    [InlineData("08:35 source_added tech-01 source=mains_cord")]
    [InlineData("08:35 isolator_operated tech-01 source=mains_cord position=on")]
    [InlineData("08:35 plug_control_confirmed tech-02 source=mains_cord")]
    public void Judge_PluggedInAgainOrKeptByAnother_DoesNotHoldForTheNextWork(string line)
    {
        var again = Corded.And("08:45 work_started tech-01").And("08:50 work_stopped tech-01");

        Assert.Equal(Verdict.Met, again.Verdict(EnergyDuty.CordAndPlugClaim));
        Assert.Equal(Verdict.NotMet, again.And(line).Verdict(EnergyDuty.CordAndPlugClaim));
        Assert.NotEqual(Verdict.NotApplicable, again.And(line).Judge(new Check.Protection()).Verdict);
    }

    [Fact]
    public void Judge_TwoPeopleEachKeepThePlug_DoesNotHold() =>
        Assert.Equal(
            Verdict.NotMet,
            Corded
                .And("08:03 plug_control_confirmed tech-02 source=mains_cord")
                .And("08:02 plug_removed tech-02 source=mains_cord")
                .And("08:10 work_started tech-02")
                .And("08:20 work_stopped tech-02")
                .Verdict(EnergyDuty.CordAndPlugClaim)
        );

    /// <summary>Entered three hours after the work and not labelled so: it proves nothing, and so lifts nothing.</summary>
    [Fact]
    public void Judge_ClaimRestsOnEntriesThatProveNothing_LiftsNothing()
    {
        var job = Corded with
        {
            Entries =
            [
                .. Corded.Entries.Select(entry =>
                    entry.Kind is TimelineEventKind.PlugRemoved or TimelineEventKind.PlugControlConfirmed
                        ? entry with
                        {
                            ReceivedAt = RecordedTime.Parse("2026-04-13T11:30:00+01:00").OrThrow(),
                        }
                        : entry
                ),
            ],
        };

        Assert.Equal(Verdict.Unproven, job.Verdict(EnergyDuty.CordAndPlugClaim));
        Assert.NotEqual(Verdict.NotApplicable, job.Verdict(EnergyDuty.SourcesIsolated));
        Assert.NotEqual(Verdict.NotApplicable, job.Judge(new Check.Protection()).Verdict);
    }

    [Fact]
    public void Judge_ClaimedAfterTheWork_DoesNotHold()
    {
        var late = Corded with
        {
            Entries =
            [
                .. Corded.Entries.Where(entry => entry.Kind != TimelineEventKind.ExemptionClaimed),
                TimelineLine.Read("08:40 exemption_claimed tech-01", Day) with
                {
                    Claim = Plug,
                },
            ],
        };
        var minor = Scraper with
        {
            Entries =
            [
                .. Scraper.Entries.Where(entry => entry.Kind != TimelineEventKind.ExemptionClaimed),
                TimelineLine.Read("08:40 exemption_claimed op-01", Day) with
                {
                    Claim = Minor,
                },
            ],
        };

        Assert.Equal(Verdict.NotMet, late.Verdict(EnergyDuty.CordAndPlugClaim));
        Assert.Equal(Verdict.NotMet, minor.Verdict(EnergyDuty.MinorServicingClaim));
        Assert.NotEqual(Verdict.NotApplicable, minor.Verdict(EnergyDuty.WorkByAuthorised));
    }

    [Fact]
    public void Judge_PlugKeptWithoutBeingPulled_DoesNotHold() =>
        Assert.Equal(
            Verdict.NotMet,
            Corded.Without(TimelineEventKind.PlugRemoved).Verdict(EnergyDuty.CordAndPlugClaim)
        );

    [Fact]
    public void Judge_AnotherClaimHolds_TheOneThatDoesNotIsNotNeeded() =>
        Assert.Equal(Verdict.NotApplicable, Corded.Claiming(Minor).Verdict(EnergyDuty.MinorServicingClaim));

    [Fact]
    public void Judge_SaidNotToBeCovered_IsForAPersonAndLiftsNothing()
    {
        var job = InOrder.Claiming(new(ExemptionKind.NotCovered, Ground: "employment in agriculture"));

        Assert.Equal(Verdict.Unproven, job.Verdict(EnergyDuty.CoverageDecided));
        Assert.Equal(Verdict.Met, job.Verdict(EnergyDuty.WorkByAuthorised));
    }

    [Fact]
    public void Judge_ElectricalWork_PointsAtItsRecord()
    {
        var job = InOrder with { Recorded = record => record with { ElectricalWork = true } };

        Assert.Equal(Verdict.NotMet, job.Verdict(EnergyDuty.ElectricalRecord));
        Assert.Equal(Verdict.NotApplicable, InOrder.Verdict(EnergyDuty.ElectricalRecord));
    }
}
