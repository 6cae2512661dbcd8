using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Evaluation.Timeline;
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

    private static ImmutableArray<EffectiveSource> Of(SafetyCase safety) =>
        EffectiveSources.Of(TimelineReading.Of(safety.Frame()));

    private static Func<AssessmentContext, AssessmentContext> With(params EnergySource[] sources) =>
        context => context with { Machines = [new(new("M-1"), "ride-on", [.. sources])] };
}
