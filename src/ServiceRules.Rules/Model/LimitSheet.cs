using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Model;

/// <summary>Limits and geometry of one kind of unit, transcribed by the owner from the unit's own manual.</summary>
public sealed record LimitSheet
{
    /// <summary>Identity.</summary>
    public required Id<LimitSheet> Id { get; init; }

    /// <summary>What the kind of unit is: reel diameter, blades, width.</summary>
    public required string Title { get; init; }

    /// <summary>What the sheet as a whole rests on.</summary>
    public required Basis Basis { get; init; }

    /// <summary>Nominal reel diameter.</summary>
    public required DualPrint ReelDiameter { get; init; }

    /// <summary>Number of reel blades.</summary>
    public required int Blades { get; init; }

    /// <summary>Width of the bedknife between the blade ends.</summary>
    public required DualPrint Width { get; init; }

    /// <summary>Whether the bedknife or the reel moves to set the clearance.</summary>
    public required BedknifeMounting Bedknife { get; init; }

    /// <summary>Diameter of the front roller, where stated.</summary>
    public DualPrint? FrontRollerDiameter { get; init; }

    /// <summary>Diameter of the rear roller, where stated.</summary>
    public DualPrint? RearRollerDiameter { get; init; }

    /// <summary>How fast its parts are used up, where stated.</summary>
    public WearRates? Wear { get; init; }

    /// <summary>Adjusters, one for each kind that can be turned.</summary>
    public required ImmutableArray<Adjuster> Adjusters { get; init; }

    /// <summary>What is asked of each quantity; at most one for each.</summary>
    public required ImmutableArray<QuantityLimit> Quantities { get; init; }

    /// <summary>Of which quantities it says nothing on purpose, and why.</summary>
    public ImmutableArray<LeftOutQuantity> LeftOut { get; init; } = [];

    /// <summary>The procedure that the sheet teaches, in order, for people.</summary>
    public ImmutableArray<string> Procedure { get; init; } = [];

    /// <summary>Cautions of the sheet.</summary>
    public ImmutableArray<string> Cautions { get; init; } = [];

    /// <summary>The limit of a quantity, or null when the sheet states none.</summary>
    public QuantityLimit? Of(MeasuredQuantity quantity)
    {
        foreach (var limit in Quantities)
        {
            if (limit.Quantity == quantity)
            {
                return limit;
            }
        }

        return null;
    }

    /// <summary>The adjuster of a kind, or null when the sheet has none.</summary>
    public Adjuster? Of(AdjusterKind kind)
    {
        foreach (var adjuster in Adjusters)
        {
            if (adjuster.Kind == kind)
            {
                return adjuster;
            }
        }

        return null;
    }
}
