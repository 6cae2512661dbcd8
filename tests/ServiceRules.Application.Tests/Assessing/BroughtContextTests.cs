using System.Collections.Immutable;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Filed;
using ServiceRules.Application.Tests.Demo;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Formats.Records;

namespace ServiceRules.Application.Tests.Assessing;

/// <summary>A context that lies beside a record is held against the site's registers of that day.</summary>
public sealed class BroughtContextTests
{
    private static readonly ServiceRecord Job = DemoSeasons
        .Jobs.First(job => job.Record.Machine.Id.Text == "M-01" && job.Record.Place == WorkPlace.OnMachine)
        .Record;

    private static readonly ServiceRecord AtTheBench = DemoSeasons
        .Jobs.First(job => job.Record.Place == WorkPlace.OnBench)
        .Record;

    private static AssessmentContext Own => ContextFreezer.Freeze(DemoSeasons.Site, Job);

    [Fact]
    public void Of_TheSitesOwn_SaysNothingAndStaysAsItIs()
    {
        var held = Held(Own)!;

        Assert.Empty(held.OtherThanTheSites);
        Assert.Equal(
            Own.Machines.Select(one => one.Sources.Length),
            held.Machines.Select(one => one.Sources.Length)
        );
    }

    private static readonly ServiceRecord Gauged = DemoSeasons
        .Jobs.First(job =>
            job.Record.Instruments.Any(gauge =>
                DemoSeasons.Site.Instruments.Any(known => known.Id == gauge.Id)
            )
        )
        .Record;

    /// <summary>What a gauge is worth is the site's to say: a context with better ones says so and gains nothing.</summary>
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Of_GaugesOtherThanTheSites_TheSitesCount(bool claims)
    {
        var own = ContextFreezer.Freeze(DemoSeasons.Site, Gauged);
        var ours = own.Instruments!.Value;
        ImmutableArray<RegisteredInstrument> better =
        [
            .. ours.Select(gauge =>
                gauge with
                {
                    ExpandedUncertainty = PrintedLength.Parse("0.001 mm").OrThrow(),
                }
            ),
        ];

        var held = BroughtContext.Of(
            new(
                "job.json",
                Gauged,
                CanonicalForm.Of(RecordFormat.Current.Write(Gauged)),
                own with
                {
                    Instruments = claims ? better : null,
                },
                null
            ),
            DemoSeasons.Site
        )!;

        Assert.Equal(
            ours.Select(gauge => (gauge.Id, gauge.ExpandedUncertainty)),
            held.Instruments!.Value.Select(gauge => (gauge.Id, gauge.ExpandedUncertainty))
        );
        string[] told = claims ? ["instruments"] : [];
        Assert.Equal(told, held.OtherThanTheSites.AsEnumerable());
    }

    [Fact]
    public void Of_ProcedureWithFewerSources_IsToldAndTheSitesSourcesAreJudgedAsWell()
    {
        var brought = Own with
        {
            Machines = [],
            Procedures =
            [
                .. Own.Procedures.Select(one =>
                    one with
                    {
                        Sources = [.. one.Sources.Where(source => source.Id.Text == "gravity")],
                    }
                ),
            ],
        };

        var held = Held(brought)!;

        Assert.Contains("procedures", held.OtherThanTheSites);
        Assert.Superset(
            Own.Procedures.SelectMany(one => one.Sources).Select(source => source.Id).ToHashSet(),
            Assert.Single(held.Machines).Sources.Select(source => source.Id).ToHashSet()
        );
    }

    [Fact]
    public void Of_IsolatorThatIsSaidToTakeNoLock_TakesOne()
    {
        var brought = Own with
        {
            Machines = [],
            Procedures =
            [
                .. Own.Procedures.Select(one =>
                    one with
                    {
                        Sources = [.. one.Sources.Select(source => source with { Lockable = false })],
                    }
                ),
            ],
        };

        Assert.Contains(Assert.Single(Held(brought)!.Machines).Sources, source => source.Lockable);
    }

    /// <summary>At the bench as well: the stricter word of a source that both have counts.</summary>
    [Fact]
    public void Of_BenchSourceThatIsSaidToStoreNothing_StoresAllTheSame()
    {
        var own = ContextFreezer.Freeze(DemoSeasons.Site, AtTheBench);
        var brought = own with
        {
            Procedures =
            [
                .. own.Procedures.Select(one =>
                    one with
                    {
                        Sources = [.. one.Sources.Select(source => source with { Stored = false })],
                    }
                ),
            ],
        };

        var held = BroughtContext.Of(Filed(brought, AtTheBench), DemoSeasons.Site)!;

        Assert.Contains("procedures", held.OtherThanTheSites);
        Assert.Equal(
            own.Procedures.SelectMany(one => one.Sources),
            held.Procedures.SelectMany(one => one.Sources)
        );
    }

    [Fact]
    public void Of_NoBenchProcedure_TheSitesIsJudgedBy()
    {
        var own = ContextFreezer.Freeze(DemoSeasons.Site, AtTheBench);

        var held = BroughtContext.Of(Filed(own with { Procedures = [] }, AtTheBench), DemoSeasons.Site)!;

        Assert.Contains("procedures", held.OtherThanTheSites);
        Assert.Equal(own.Procedures.Select(one => one.Id), held.Procedures.Select(one => one.Id));
    }

    [Fact]
    public void Of_PeopleLeftOut_IsTold() =>
        Assert.Equal<IEnumerable<string>>(
            ["people"],
            Held(Own with { People = [.. Own.People.Skip(1)] })!.OtherThanTheSites
        );

    /// <summary>What it says of itself counts for nothing.</summary>
    [Fact]
    public void Of_WhatItSaysOfItself_IsLookedAtAnew() =>
        Assert.Empty(Held(Own with { OtherThanTheSites = ["people"] })!.OtherThanTheSites);

    [Fact]
    public void Of_AnotherSite_IsToldAndNothingIsAdded()
    {
        var held = Held(Own with { Site = "the other site", Machines = [] })!;

        Assert.Equal<IEnumerable<string>>(["site"], held.OtherThanTheSites);
        Assert.Empty(held.Machines);
    }

    /// <summary>What a signed report carries was frozen when it was signed.</summary>
    [Fact]
    public void Of_OutOfASignedReport_StaysAsItWasFrozen()
    {
        var brought = Own with { People = [] };

        Assert.Same(brought, BroughtContext.Of(Filed(brought) with { Book = new([], []) }, DemoSeasons.Site));
    }

    private static AssessmentContext? Held(AssessmentContext brought) =>
        BroughtContext.Of(Filed(brought), DemoSeasons.Site);

    private static FiledRecord Filed(AssessmentContext brought, ServiceRecord? job = null) =>
        new("job.json", job ?? Job, CanonicalForm.Of(RecordFormat.Current.Write(job ?? Job)), brought, null);
}
