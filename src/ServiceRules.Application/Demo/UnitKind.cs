using System.Collections.Immutable;

namespace ServiceRules.Application.Demo;

/// <summary>
/// A kind of cutting unit as the shop handles it. Lengths are millimetres. What the shop does by habit stands here;
/// what is allowed stands in the limit sheet.
/// </summary>
internal sealed record UnitKind
{
    public required string Sheet { get; init; }

    public required decimal Width { get; init; }

    public required int Blades { get; init; }

    public required bool HasMovingBedknife { get; init; }

    /// <summary>One click of the clearance adjuster, at the adjuster.</summary>
    public required decimal Step { get; init; }

    /// <summary>How far outside the unit's ends the clearance adjusters sit.</summary>
    public required decimal AdjusterOverhang { get; init; }

    /// <summary>Clicks from light contact to the gap that the shop keeps; 0: it keeps light contact.</summary>
    public required int ClicksFromContact { get; init; }

    /// <summary>Feelers in the order in which they are tried; empty where contact is kept.</summary>
    public required ImmutableArray<string> Feelers { get; init; }

    /// <summary>How far a height may be from its target before somebody turns it.</summary>
    public required decimal TrimAbove { get; init; }

    /// <summary>Reel diameter when new.</summary>
    public required decimal NewDiameter { get; init; }

    /// <summary>What a grind takes off the reel, least and most.</summary>
    public required (decimal Least, decimal Most) GrindLoss { get; init; }

    /// <summary>Below this the bedknife stands in its position for a worn reel; none: there is no such position.</summary>
    public required decimal? WornBelow { get; init; }

    /// <summary>Below this the shop fits a new reel.</summary>
    public required decimal SmallestDiameter { get; init; }

    /// <summary>How much the gap grows in an hour of mowing.</summary>
    public required decimal WearPerHour { get; init; }

    public bool KeepsContact => ClicksFromContact == 0;

    /// <summary>Where height and front roller are gauged: 51 mm from each end.</summary>
    public const decimal GaugeInset = 51m;

    /// <summary>Where gap, shield and diameter are read: 25 mm from each end.</summary>
    public const decimal EdgeInset = 25m;

    public static UnitKind Small { get; } =
        new()
        {
            Sheet = "reel-125-9-510",
            Width = 510m,
            Blades = 9,
            HasMovingBedknife = true,
            Step = 0.0127m,
            AdjusterOverhang = 10m,
            ClicksFromContact = 3,
            Feelers =
            [
                "0.001 in",
                "0.0015 in",
                "0.002 in",
                "0.0025 in",
                "0.003 in",
                "0.004 in",
                "0.005 in",
                "0.006 in",
                "0.008 in",
                "0.010 in",
            ],
            TrimAbove = 0.045m,
            NewDiameter = 125m,
            GrindLoss = (0.16m, 0.30m),
            WornBelow = 122m,
            SmallestDiameter = 114.3m,
            WearPerHour = 0.00045m,
        };

    public static UnitKind Large { get; } =
        new()
        {
            Sheet = "reel-180-7-660",
            Width = 660m,
            Blades = 7,
            HasMovingBedknife = false,
            Step = 0.0127m,
            AdjusterOverhang = 15m,
            ClicksFromContact = 5,
            Feelers =
            [
                "0.002 in",
                "0.003 in",
                "0.004 in",
                "0.005 in",
                "0.006 in",
                "0.008 in",
                "0.010 in",
                "0.012 in",
            ],
            TrimAbove = 0.09m,
            NewDiameter = 180m,
            GrindLoss = (0.25m, 0.45m),
            WornBelow = 174m,
            SmallestDiameter = 168.9m,
            WearPerHour = 0.0004m,
        };

    public static UnitKind Wide { get; } =
        new()
        {
            Sheet = "reel-200-6-760",
            Width = 760m,
            Blades = 6,
            HasMovingBedknife = false,
            Step = 0.020m,
            AdjusterOverhang = 20m,
            ClicksFromContact = 0,
            Feelers = [],
            TrimAbove = 0.15m,
            NewDiameter = 200m,
            GrindLoss = (0.3m, 0.6m),
            WornBelow = null,
            SmallestDiameter = 190m,
            WearPerHour = 0.0003m,
        };
}
