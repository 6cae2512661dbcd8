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
            Recorded = record => record with { Setting = WorkSetting.InUse, HandsInBladeZone = false },
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
                TimelineLine.Read("08:40 exemption_claimed tech-01", Day) with { Claim = Plug },
            ],
        };
        var minor = Scraper with
        {
            Entries =
            [
                .. Scraper.Entries.Where(entry => entry.Kind != TimelineEventKind.ExemptionClaimed),
                TimelineLine.Read("08:40 exemption_claimed op-01", Day) with { Claim = Minor },
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
