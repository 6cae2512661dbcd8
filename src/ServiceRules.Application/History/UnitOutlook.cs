using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.History;

/// <summary>What the records tell of one unit over time.</summary>
public sealed record UnitOutlook
{
    /// <summary>The site.</summary>
    public required string Site { get; init; }

    /// <summary>The frame.</summary>
    public required Id<UnitWork> Unit { get; init; }

    /// <summary>The machine that it was on last.</summary>
    public required Id<MachineVisit> Machine { get; init; }

    /// <summary>The area that it serves.</summary>
    public required string? Area { get; init; }

    /// <summary>Place on the machine.</summary>
    public required int? Position { get; init; }

    /// <summary>The sheet that it is held to.</summary>
    public required string Sheet { get; init; }

    /// <summary>The reel in it.</summary>
    public required string? Reel { get; init; }

    /// <summary>The bedknife in it.</summary>
    public required string? Bedknife { get; init; }

    /// <summary>Jobs.</summary>
    public required int Jobs { get; init; }

    /// <summary>Day of the first.</summary>
    public required DateOnly First { get; init; }

    /// <summary>Day of the last.</summary>
    public required DateOnly Last { get; init; }

    /// <summary>Hours run in a week, from its hour meter; null where the records do not tell.</summary>
    public required RunningTime? PerWeek { get; init; }

    /// <summary>Reel diameter, bedknife lip and land width, as far as they were read.</summary>
    public required ImmutableArray<SizeOutlook> Sizes { get; init; }

    /// <summary>Reels and bedknives that were in it before.</summary>
    public required ImmutableArray<EarlierPart> Earlier { get; init; }

    /// <summary>When the relief is due.</summary>
    public required ReliefOutlook? Relief { get; init; }

    /// <summary>When the next grind is due.</summary>
    public required GrindOutlook? Grind { get; init; }

    /// <summary>How fast the clearance is taken up.</summary>
    public required TakeUpOutlook? TakeUp { get; init; }

    /// <summary>What the steps of its adjusters really do.</summary>
    public required ImmutableArray<StepOutlook> Steps { get; init; }

    /// <summary>Whether its shield gap follows the reel.</summary>
    public required ShieldOutlook? Shield { get; init; }

    /// <summary>A size, or null when it was never read.</summary>
    public SizeOutlook? Of(MeasuredQuantity quantity) =>
        Sizes.FirstOrDefault(size => size.Quantity == quantity);
}
