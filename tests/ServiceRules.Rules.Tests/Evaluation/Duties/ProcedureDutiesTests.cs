using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;
using static ServiceRules.Rules.Tests.Evaluation.Duties.Registers;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

public sealed class ProcedureDutiesTests
{
    private static readonly UndocumentedFacts Yes = new(true, true, true, true, true, true, true, true);

    /// <summary>The procedure stands in the register beside the frame's choice, as a frozen context has it.</summary>
    private static SafetyCase Kept(params Procedure[] procedures)
    {
        var before = InOrder.Registered;
        return InOrder with
        {
            Procedure = null,
            Registered = context => before(context) with { Procedures = [.. procedures] },
        };
    }

    [Theory]
    [InlineData(-90, null, Verdict.Met)]
    [InlineData(0, null, Verdict.Met)]
    [InlineData(1, null, Verdict.NotMet)]
    [InlineData(-90, 0, Verdict.Met)]
    [InlineData(-90, -1, Verdict.NotMet)]
    public void Judge_ProcedureInForce_OnTheDayTheJobBegan(int from, int? until, Verdict expected) =>
        Assert.Equal(
            expected,
            Kept(
                    SafetyCase.RideOn with
                    {
                        From = Day.AddDays(from),
                        Until = until is { } days ? Day.AddDays(days) : null,
                    }
                )
                .Verdict(EnergyDuty.WrittenProcedure)
        );

    [Fact]
    public void Judge_NoProcedure_IsNotMetAndIsNotInspected()
    {
        var job = InOrder with { Procedure = null };

        Assert.Equal(Verdict.NotMet, job.Verdict(EnergyDuty.WrittenProcedure));
        Assert.Equal(Verdict.NotApplicable, job.Verdict(EnergyDuty.ProcedureInspected));
        Assert.Equal(Verdict.NotApplicable, job.Verdict(EnergyDuty.ProcedureCoversSources));
    }

    [Fact]
    public void Judge_Withdrawn_ItsInspectionIsStillJudged()
    {
        var job = Kept(
            SafetyCase.RideOn with
            {
                From = Day.AddDays(-900),
                Until = Day.AddDays(-20),
                Inspection = Certificate with { On = Day.AddDays(-500), People = [] },
            }
        );

        Assert.Equal(Verdict.NotMet, job.Verdict(EnergyDuty.WrittenProcedure));
        Assert.Equal(Verdict.NotMet, job.Verdict(EnergyDuty.ProcedureInspected));
        Assert.Equal(Verdict.NotMet, job.Verdict(EnergyDuty.InspectionCertified));
    }

    [Theory]
    [InlineData(-1, Verdict.NotMet)]
    [InlineData(1, Verdict.Unproven)]
    public void Judge_OnlyWhenItIsDue_IsJudgedByThat(int due, Verdict expected) =>
        Assert.Equal(
            expected,
            (
                InOrder with
                {
                    Procedure = InOrder.Procedure! with
                    {
                        Inspection = null,
                        InspectionDue = Day.AddDays(due),
                    },
                }
            ).Verdict(EnergyDuty.ProcedureInspected)
        );

    [Fact]
    public void Judge_TheOneInForce_CountsBeforeTheOneThatWas()
    {
        var before = SafetyCase.RideOn with { Until = Day.AddDays(-1), Inspection = null };
        var now = SafetyCase.RideOn with { Id = new("P-2"), From = Day, Inspection = Certificate };

        var outcome = Kept(before, now).Judge(EnergyDuty.ProcedureInspected);

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.Contains("P-2", outcome.Statement, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("2025-04-13", Verdict.Met)]
    [InlineData("2025-04-12", Verdict.NotMet)]
    [InlineData("2026-04-14", Verdict.NotMet)]
    public void Judge_Inspected_HoldsForAYearByTheCalendar(string on, Verdict expected) =>
        Assert.Equal(
            expected,
            InOrder
                .Certified(one => one with { On = DateOnly.Parse(on, null) })
                .Verdict(EnergyDuty.ProcedureInspected)
        );

    /// <summary>The 29th of February has no like next year: the year is over on the 28th.</summary>
    [Theory]
    [InlineData("2025-02-28", Verdict.Met)]
    [InlineData("2025-03-01", Verdict.NotMet)]
    public void Judge_InspectedOnALeapDay_HoldsUntilTheEndOfFebruary(string dated, Verdict expected)
    {
        var job = InOrder.Certified(one => one with { On = new(2024, 2, 29) });

        Assert.Equal(
            expected,
            (job with { Date = DateOnly.Parse(dated, null), Entries = [] }).Verdict(
                EnergyDuty.ProcedureInspected
            )
        );
    }

    [Fact]
    public void Judge_DueSoonerByTheSite_TheSiteCounts() =>
        Assert.Equal(
            Verdict.NotMet,
            (
                InOrder with
                {
                    Procedure = InOrder.Procedure! with { InspectionDue = Day.AddDays(-1) },
                }
            ).Verdict(EnergyDuty.ProcedureInspected)
        );

    /// <summary>Dated before the inspection ran out and timed after: no date makes an inspection good.</summary>
    [Fact]
    public void Judge_DatedBack_TheDayOfTheTimesCounts() =>
        Assert.Equal(
            Verdict.NotMet,
            (
                InOrder.Certified(one => one with { On = Day.AddDays(-370) }) with
                {
                    Date = Day.AddDays(-20),
                }
            ).Verdict(EnergyDuty.ProcedureInspected)
        );

    [Fact]
    public void Judge_RanOutOverMidnight_IsOfTheJobAndNotOfItsBeginning()
    {
        var night = InOrder.And("2026-04-14T00:20:00+01:00 work_stopped tech-02") with
        {
            Procedure = InOrder.Procedure! with { Inspection = Certificate with { On = new(2025, 4, 13) } },
        };

        Assert.Equal(Verdict.Met, night.Verdict(EnergyDuty.ProcedureInspected));
        Assert.Equal(Verdict.NotMet, night.Verdict(EnergyDuty.InspectionThroughWork));
        Assert.Equal(Verdict.NotApplicable, InOrder.Verdict(EnergyDuty.InspectionThroughWork));
    }

    [Fact]
    public void Judge_MachineHasMoreThanTheProcedure_NamesIt()
    {
        var outcome = InOrder
            .OfMachineWith([
                .. SafetyCase.RideOn.Sources,
                SafetyCase.Source("spark", "ignition", stored: true),
            ])
            .Judge(EnergyDuty.ProcedureCoversSources);

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains("ignition", outcome.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Judge_NeitherIsolationNorRelease_IsNotCovered() =>
        Assert.Equal(Verdict.NotMet, InOrder.Verdict(EnergyDuty.ProcedureCoversSources));

    [Fact]
    public void Judge_EverySourceWithItsSteps_IsCovered() =>
        Assert.Equal(
            Verdict.Met,
            (
                InOrder with
                {
                    Procedure = InOrder.Procedure! with
                    {
                        Sources =
                        [
                            .. SafetyCase.RideOn.Sources.Select(source =>
                                source with
                                {
                                    Release = "let down",
                                }
                            ),
                        ],
                    },
                }
            ).Verdict(EnergyDuty.ProcedureCoversSources)
        );

    [Fact]
    public void Judge_BenchWhereNothingIsSwitchedOn_HasNothingToInspect() =>
        Assert.Equal(
            Verdict.NotApplicable,
            (
                InOrder with
                {
                    Procedure = InOrder.Procedure! with
                    {
                        Place = WorkPlace.OnBench,
                        Sources = [SafetyCase.Source("gravity", "raised unit", stored: true)],
                        Inspection = null,
                    },
                }
            ).Verdict(EnergyDuty.ProcedureInspected)
        );

    [Fact]
    public void Judge_SimpleMachineWithEightYes_NeedsNoProcedure()
    {
        var job = (InOrder with { Procedure = null })
            .OfMachineWith(SafetyCase.Source("mains", "mains", "switch", lockable: true))
            .Claiming(new(ExemptionKind.UndocumentedProcedure, Facts: Yes));

        Assert.Equal(Verdict.Met, job.Verdict(EnergyDuty.UndocumentedException));
        Assert.Equal(Verdict.NotApplicable, job.Verdict(EnergyDuty.WrittenProcedure));
    }

    /// <summary>What only an entry of the job names says nothing of what the machine has.</summary>
    [Fact]
    public void Judge_MachineOfWhichNothingIsWrittenAndSomethingPluggedIn_IsNotShownToBeSimple() =>
        Assert.Equal(
            Verdict.Unproven,
            (InOrder with { Procedure = null, Registered = context => context })
                .Claiming(new(ExemptionKind.UndocumentedProcedure, Facts: Yes))
                .And("08:15 source_added tech-01 source=groomer")
                .Verdict(EnergyDuty.UndocumentedException)
        );

    [Theory]
    [InlineData("stored")]
    [InlineData("builds-up")]
    [InlineData("two")]
    [InlineData("no")]
    [InlineData("unanswered")]
    public void Judge_OneOfTheEightFails_NeedsAProcedure(string why)
    {
        var mains = SafetyCase.Source("mains", "mains", "switch", lockable: true, stored: why == "stored");
        EnergySource[] sources = why switch
        {
            "two" => [mains, SafetyCase.Source("spark", "ignition", "plug lead")],
            "builds-up" => [mains with { Reaccumulates = true }],
            _ => [mains],
        };
        var facts = why switch
        {
            "no" => Yes with { NoHazardToOthers = false },
            "unanswered" => null,
            _ => Yes,
        };

        var job = (InOrder with { Procedure = null })
            .OfMachineWith(sources)
            .Claiming(new(ExemptionKind.UndocumentedProcedure, Facts: facts));

        Assert.Equal(Verdict.NotMet, job.Verdict(EnergyDuty.UndocumentedException));
        Assert.Equal(Verdict.NotMet, job.Verdict(EnergyDuty.WrittenProcedure));
    }
}
