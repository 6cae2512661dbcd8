using System.Collections.Immutable;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

/// <summary>
/// The base checks held against the published-shape timelines. C12 and the exemption claimed in B05 and B12 are left to
/// the rules about exemptions; rows that need a register are left to the rules about registers.
/// </summary>
public sealed class PublishedTimelineTests
{
    /// <summary>Which checks a row's breach must show in: the first of them at least, no others than these.</summary>
    private static readonly Dictionary<string, string[]> ChecksOfRow = new(StringComparer.Ordinal)
    {
        ["147.c.1"] = ["isolated", "protection"],
        ["147.c.2.ii"] = ["locked", "protection"],
        ["147.c.9.before"] = ["told-before"],
        ["147.c.9.after"] = ["told-after"],
        ["147.d"] = ["order", "protection"],
        ["147.d.1"] = ["reviewed"],
        ["147.d.3"] = ["isolated", "protection"],
        ["147.d.4.i"] = ["locked", "protection"],
        ["147.d.4.ii"] = ["locked", "protection"],
        ["147.d.5.i"] = ["released", "protection"],
        ["147.d.5.ii"] = ["protection"],
        ["147.d.6"] = ["protection", "verified"],
        ["147.e.1"] = ["area-inspected"],
        ["147.e.2.i"] = ["people-clear"],
        ["147.e.2.ii"] = ["told-after"],
        ["147.e.3"] = ["protection"],
        ["147.f.1.i"] = ["area-inspected"],
        ["147.f.1.ii"] = ["people-clear"],
        ["147.f.1.iii"] = ["protection"],
        ["147.f.1.iv"] = ["protection"],
        ["147.f.1.v"] = ["protection"],
        ["147.f.3.i"] = ["protection", "locked"],
        ["147.f.3.ii.D"] = ["protection", "locked"],
        ["147.f.4"] = ["protection"],
    };

    private static readonly Dictionary<string, string[]> ChecksOfUnprovenRow = new(StringComparer.Ordinal)
    {
        ["147.c.9.before"] = ["told-before"],
        ["147.d"] = ["order"],
        ["147.d.1"] = ["reviewed"],
        ["147.d.2"] = ["shut-down"],
        ["147.d.3"] = ["isolated"],
        ["147.d.4.i"] = ["locked"],
        ["147.d.5.i"] = ["released"],
        ["147.d.6"] = ["verified", "protection"],
        ["cred.burst"] = ["bursts"],
        ["cred.backfilled"] = ["back-filled"],
        ["cred.no-offset"] = ["no-offset"],
        ["cred.clock-backward"] = ["clock-backward"],
    };

    [Theory]
    [InlineData("C01")]
    [InlineData("C02")]
    [InlineData("C03")]
    [InlineData("C04")]
    [InlineData("C05")]
    [InlineData("C06")]
    [InlineData("C07")]
    [InlineData("C08")]
    [InlineData("C09")]
    [InlineData("C10")]
    [InlineData("C13")]
    [InlineData("C14")]
    [InlineData("C15")]
    [InlineData("B14")]
    public void Judge_TimelineWithoutBreachOfItsOwn_EveryCheckIsMet(string id)
    {
        var published = PublishedTimeline.Read(id);

        Assert.Empty(Outcomes(published).Where(outcome => outcome.Verdict != Verdict.Met));
    }

    [Theory]
    [InlineData("isolated")]
    [InlineData("locked")]
    [InlineData("protection")]
    public void Judge_PlugKeptUnderControl_IsMet(string check) =>
        Assert.Equal(
            Verdict.Met,
            PublishedTimeline
                .Read("C11")
                .Case.Without(TimelineEventKind.ExemptionClaimed)
                .Judge(FoundationChecks.ByName[check])
                .Verdict
        );

    [Theory]
    [InlineData("B01")]
    [InlineData("B02")]
    [InlineData("B03")]
    [InlineData("B04")]
    [InlineData("B05")]
    [InlineData("B06")]
    [InlineData("B07")]
    [InlineData("B11")]
    [InlineData("B12")]
    [InlineData("B13")]
    [InlineData("B15")]
    public void Judge_BreachingTimeline_ShowsEveryBreachThatTheseChecksAreAboutAndNoOther(string id)
    {
        var published = PublishedTimeline.Read(id);
        var rows = published.Breaches.Where(ChecksOfRow.ContainsKey).ToList();
        var notMet = Outcomes(published)
            .Where(outcome => outcome.Verdict == Verdict.NotMet)
            .Select(outcome => outcome.Check)
            .ToHashSet(StringComparer.Ordinal);

        Assert.NotEmpty(rows);
        Assert.All(rows, row => Assert.Contains(ChecksOfRow[row][0], notMet));
        Assert.Subset(
            rows.SelectMany(row => ChecksOfRow[row])
                .Concat(LeftUnsaid(published))
                .ToHashSet(StringComparer.Ordinal),
            notMet
        );
    }

    [Theory]
    [InlineData("B08")]
    [InlineData("B09")]
    [InlineData("B10")]
    public void Judge_TimelineThatIsNotCredible_WhatRestsOnItIsUnprovenAndNothingIsBreached(string id)
    {
        var published = PublishedTimeline.Read(id);
        var rows = published
            .Unproven.Concat(published.Breaches)
            .Where(ChecksOfUnprovenRow.ContainsKey)
            .ToList();
        var outcomes = Outcomes(published);

        Assert.DoesNotContain(outcomes, outcome => outcome.Verdict == Verdict.NotMet);
        Assert.All(
            rows.SelectMany(row => ChecksOfUnprovenRow[row]),
            check =>
                Assert.Equal(Verdict.Unproven, outcomes.Single(outcome => outcome.Check == check).Verdict)
        );
    }

    /// <summary>
    /// The reference leaves telling people and clearing up unsaid where no device was ever put on, since row 147.d.4.i
    /// says it; these checks each speak for themselves.
    /// </summary>
    private static IEnumerable<string> LeftUnsaid(PublishedTimeline published) =>
        published.Case.Entries.Any(entry =>
            entry.Kind is TimelineEventKind.LockApplied or TimelineEventKind.TagApplied
        )
            ? []
            : ["told-before", "told-after", "area-inspected", "people-clear"];

    private static ImmutableArray<(string Check, Verdict Verdict, string Statement)> Outcomes(
        PublishedTimeline published
    ) =>
        [
            .. from pair in FoundationChecks.ByName
            let outcome = published.Case.Judge(pair.Value)
            select (pair.Key, outcome.Verdict, outcome.Statement),
        ];
}
