using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Evaluation.Timeline;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

public class EffectiveSourcesTests
{
    private static readonly SafetyCase OfMachine = new SafetyCase().With(
        """
        08:00 machine_shut_down tech-01
        08:30 source_added tech-01 source=charger
        08:40 work_started tech-01
        """
    );

    [Fact]
    public void Of_RegisterNamesMoreThanTheProcedure_HasBothAndTheProcedureSpeaks()
    {
        var sources = Of(
            OfMachine with
            {
                Registered = With(
                    SafetyCase.Source("hydraulic", "of the register"),
                    SafetyCase.Source("spark", "spark")
                ),
            }
        );

        Assert.Equal(
            ["engine_start", "hydraulic", "gravity", "spark", "charger"],
            sources.Select(source => source.Source.Id.Text)
        );
        Assert.Equal("hydraulic pressure", sources[1].Source.Title);
        Assert.Equal((true, true), (sources[1].InProcedure, sources[1].InMachine));
        Assert.Equal((false, true), (sources[3].InProcedure, sources[3].InMachine));
    }

    [Fact]
    public void Of_SourceThatCameDuringTheJob_IsThereFromItsEntryOn()
    {
        var added = Of(OfMachine)[^1];

        Assert.Equal("charger", added.Source.Id.Text);
        Assert.False(added.IsDescribed);
        Assert.True(added.HasIsolator);
        var entries = TimelineReading.Of(OfMachine.Frame()).Events;
        Assert.False(added.IsThereAt(new(entries[0].Moment, entries[0].Index)));
        Assert.True(added.IsThereAt(new(entries[2].Moment, entries[2].Index)));
    }

    [Fact]
    public void Of_OnTheBench_TakesTheBenchProcedureAlone()
    {
        var bench = OfMachine with
        {
            Procedure = SafetyCase.RideOn with { Place = WorkPlace.OnBench, Sources = [] },
            Entries = [],
            Registered = With(SafetyCase.Source("spark", "spark")),
        };

        Assert.Empty(Of(bench));
    }

    [Fact]
    public void Of_NoProcedure_TakesTheRegister()
    {
        var unwritten = OfMachine with
        {
            Procedure = null,
            Entries = [],
            Registered = With(SafetyCase.Source("spark", "spark")),
        };

        Assert.Equal(["spark"], Of(unwritten).Select(source => source.Source.Id.Text));
    }

    /// <summary>Leaving a danger out of the procedure takes nothing from what the machine has.</summary>
    [Fact]
    public void Of_ProcedureSaysLessThanTheRegister_TakesTheStricter()
    {
        var known = SafetyCase.Source("hydraulic", "of the register", "valve", true, true, recheck: 30);
        var sources = Of(
            OfMachine with
            {
                Procedure = SafetyCase.RideOn with
                {
                    Sources = [SafetyCase.Source("hydraulic", "hydraulic pressure", recheck: 45)],
                },
                Entries = [],
                Registered = With(known),
            }
        );

        Assert.Equal(
            known with
            {
                Title = "hydraulic pressure",
                Reaccumulates = true,
            },
            Assert.Single(sources).Source
        );
    }

    [Fact]
    public void Judge_ProcedureSilentOnStoredEnergyThatTheMachineHas_AsksForItsRelease()
    {
        var job = Registers.InOrder with
        {
            Procedure = Registers.InOrder.Procedure! with
            {
                Sources =
                [
                    .. SafetyCase.RideOn.Sources.Select(source =>
                        source.Id.Text == "hydraulic"
                            ? source with
                            {
                                Stored = false,
                                Lockable = false,
                            }
                            : source
                    ),
                ],
            },
        };
        var unreleased = job with
        {
            Entries = [.. job.Entries.Where(entry => entry.Kind != TimelineEventKind.StoredEnergyReleased)],
        };

        var released = unreleased.Duty(EnergyDuty.StoredEnergyReleased);
        var covered = job.Duty(EnergyDuty.ProcedureCoversSources);

        Assert.Equal(Verdict.NotMet, released.Verdict);
        Assert.Contains("hydraulic pressure", released.Statement, StringComparison.Ordinal);
        Assert.Equal(Verdict.NotMet, covered.Verdict);
        Assert.Contains(
            covered.Notices.Prepend(covered.Statement),
            told =>
                told.Contains(
                    "that the valve of hydraulic pressure takes a lock and that the energy of hydraulic pressure stays stored",
                    StringComparison.Ordinal
                )
        );
    }

    public static TheoryData<string> Nothing =>
        ["register without sources", "procedure without sources", "bench"];

    /// <summary>An empty list says that nobody has looked, not that there is nothing.</summary>
    [Theory]
    [MemberData(nameof(Nothing))]
    public void Judge_NobodySaysWhatEnergyThereIs_IsUnproven(string what)
    {
        var work = new SafetyCase().With("08:20 work_started tech-01\n09:40 work_stopped tech-01");
        var job = what switch
        {
            "register without sources" => work with { Procedure = null, Registered = With() },
            "procedure without sources" => work with { Procedure = SafetyCase.RideOn with { Sources = [] } },
            _ => work with
            {
                Procedure = null,
                Recorded = record => record with { Place = WorkPlace.OnBench },
                Registered = With([.. SafetyCase.RideOn.Sources]),
            },
        };

        Assert.Null(TimelineReading.Of(job.Frame()).Protection);
        Assert.Equal(Verdict.Unproven, job.Judge(new Check.Protection()).Verdict);
        Assert.Equal(Verdict.Unproven, job.VerdictOf(EnergyDuty.SourcesIsolated));
        Assert.Equal(Verdict.Unproven, job.VerdictOf(EnergyDuty.IsolationVerified));
    }

    private static ImmutableArray<EffectiveSource> Of(SafetyCase safety) =>
        EffectiveSources.Of(TimelineReading.Of(safety.Frame()));

    private static Func<AssessmentContext, AssessmentContext> With(params EnergySource[] sources) =>
        context => context with { Machines = [new(new("M-1"), "ride-on", [.. sources])] };
}
