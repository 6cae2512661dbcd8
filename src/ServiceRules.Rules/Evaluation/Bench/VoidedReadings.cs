using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using static ServiceRules.Domain.Records.MeasuredQuantity;

namespace ServiceRules.Rules.Evaluation.Bench;

/// <summary>
/// Which readings metal removed, or a part fitted, makes void on every kind of unit. Common practice, no source:
/// after grinding a unit is set again from nothing. What follows from these through the sheet comes on top.
/// </summary>
internal static class VoidedReadings
{
    private static readonly ImmutableArray<MeasuredQuantity> SetAgain =
    [
        Clearance,
        HeightOfCut,
        FrontRoller,
        ShieldGap,
        GroomerHeight,
        Attitude,
        Edge,
    ];

    private static readonly ImmutableArray<MeasuredQuantity> ByReel = [.. SetAgain, ReelDiameter, LandWidth];

    private static readonly ImmutableArray<MeasuredQuantity> ByBedknife = [.. SetAgain, BedknifeLip];

    private static readonly ImmutableArray<MeasuredQuantity> ByRoller =
    [
        HeightOfCut,
        FrontRoller,
        GroomerHeight,
        BrushGap,
        FrontRollerOnPlate,
        RearRollerOnPlate,
    ];

    public static ImmutableArray<MeasuredQuantity> By(GrindingKind kind) =>
        kind switch
        {
            GrindingKind.ReelSpin or GrindingKind.ReelRelief => ByReel,
            GrindingKind.BedknifeTop or GrindingKind.BedknifeFront => ByBedknife,
            GrindingKind.Lapping => [.. ByReel, BedknifeLip],
            _ => throw new ArgumentOutOfRangeException(nameof(kind), kind, "not a kind of grinding"),
        };

    public static ImmutableArray<MeasuredQuantity> By(PartKind part) =>
        part switch
        {
            PartKind.Reel => ByReel,
            PartKind.Bedknife => ByBedknife,
            PartKind.ReelBearing => [BearingPlay, Clearance],
            PartKind.Roller or PartKind.RollerBearing => ByRoller,
            PartKind.Brush => [BrushGap],
            PartKind.GroomerBlades => [GroomerHeight],
            PartKind.Guard => [Guards, ShieldGap],
            PartKind.Seal or PartKind.Other => [],
            _ => throw new ArgumentOutOfRangeException(nameof(part), part, "not a kind of part"),
        };
}
