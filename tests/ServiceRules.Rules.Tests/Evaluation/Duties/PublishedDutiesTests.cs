using System.Collections.Immutable;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

/// <summary>
/// The duties of the timeline held against the published timelines: the rows breached there, and no others of theirs.
/// </summary>
public sealed class PublishedDutiesTests
{
    /// <summary>The duties of the timeline, and the rows of 29 CFR 1910.147 that each stands for.</summary>
    private static readonly ImmutableSortedDictionary<EnergyDuty, string[]> RowsOf = new Dictionary<
        EnergyDuty,
        string[]
    >
    {
        [EnergyDuty.EnergyReviewed] = ["147.d.1"],
        [EnergyDuty.OrderlyShutdown] = ["147.d.2"],
        [EnergyDuty.SourcesIsolated] = ["147.c.1", "147.d.3"],
        [EnergyDuty.IsolatingDevice] = ["147.b.eid"],
        [EnergyDuty.DeviceOnEachIsolator] = ["147.d.4.i"],
        [EnergyDuty.DeviceHoldsOff] = ["147.d.4.ii"],
        [EnergyDuty.LockWhereItFits] = ["147.c.2.ii"],
        [EnergyDuty.TagAtLockPoint] = ["147.d.4.iii"],
        [EnergyDuty.StoredEnergyReleased] = ["147.d.5.i"],
        [EnergyDuty.BuildUpRechecked] = ["147.d.5.ii"],
        [EnergyDuty.IsolationVerified] = ["147.d.6"],
        [EnergyDuty.MakeSafeOrder] = ["147.d"],
        [EnergyDuty.AffectedTold] = ["147.c.9.before"],
        [EnergyDuty.AffectedToldAfter] = ["147.c.9.after"],
        [EnergyDuty.ToldBeforeStart] = ["147.e.2.ii"],
        [EnergyDuty.AreaInspected] = ["147.e.1"],
        [EnergyDuty.PeopleClear] = ["147.e.2.i"],
        [EnergyDuty.DeviceOffByOwner] = ["147.e.3"],
        [EnergyDuty.OwnerAbsent] = ["147.e.3.i"],
        [EnergyDuty.OwnerSought] = ["147.e.3.ii"],
        [EnergyDuty.OwnerTold] = ["147.e.3.iii"],
        [EnergyDuty.OutsideDeviceLeftAlone] = ["147.f.2.ii"],
        [EnergyDuty.TestAreaClear] = ["147.f.1.i"],
        [EnergyDuty.TestPeopleClear] = ["147.f.1.ii"],
        [EnergyDuty.TestDeviceOwner] = ["147.f.1.iii"],
        [EnergyDuty.NoHandsWhileEnergised] = ["147.f.1.iv"],
        [EnergyDuty.RelockedAfterTest] = ["147.f.1.v"],
        [EnergyDuty.ContractorsInformed] = ["147.f.2.i"],
        [EnergyDuty.OwnDeviceInGroup] = ["147.f.3.i", "147.f.3.ii.D"],
        [EnergyDuty.PrimaryNamed] = ["147.f.3.ii.A"],
        [EnergyDuty.GroupAccounted] = ["147.f.3.ii.B"],
        [EnergyDuty.CoordinatorNamed] = ["147.f.3.ii.C"],
        [EnergyDuty.HandoverContinuous] = ["147.f.4"],
    }.ToImmutableSortedDictionary();

    public static TheoryData<string> Timelines =>
        [
            .. Enumerable.Range(1, 15).Select(number => $"C{number:00}"),
            .. Enumerable.Range(1, 15).Select(number => $"B{number:00}"),
        ];

    [Theory]
    [MemberData(nameof(Timelines))]
    public void Judge_PublishedTimeline_BreaksTheRowsWrittenDownForItAndNoOthers(string id)
    {
        var published = PublishedTimeline.Read(id);
        var rows = RowsOf.Values.SelectMany(rows => rows).ToHashSet(StringComparer.Ordinal);

        var broken =
            from duty in RowsOf
            where published.Case.Judge(new Check.EnergyControl(duty.Key)).Verdict == Verdict.NotMet
            from row in duty.Value
            select row;

        Assert.Equal(
            published.Breaches.Where(rows.Contains).Order(StringComparer.Ordinal),
            broken.Order(StringComparer.Ordinal)
        );
    }

    [Theory]
    [InlineData("B08")]
    [InlineData("B09")]
    public void Judge_TimesThatAreNotCredible_WhatRestsOnThemIsUnproven(string id)
    {
        var published = PublishedTimeline.Read(id);

        var unproven =
            from duty in RowsOf
            let outcome = published.Case.Judge(new Check.EnergyControl(duty.Key))
            where outcome is { Verdict: Verdict.Unproven, Reason: FindingReason.NotCredible }
            from row in duty.Value
            select row;

        Assert.Subset(
            unproven.ToHashSet(StringComparer.Ordinal),
            published.Unproven.ToHashSet(StringComparer.Ordinal)
        );
    }
}
