using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.History;

/// <summary>One unit at one job: what a history keeps of it.</summary>
public sealed record UnitVisit
{
    /// <summary>The site.</summary>
    public required string Site { get; init; }

    /// <summary>The record.</summary>
    public required Id<ServiceRecord> Record { get; init; }

    /// <summary>Its day.</summary>
    public required DateOnly Day { get; init; }

    /// <summary>The machine as it stood.</summary>
    public required MachineVisit Machine { get; init; }

    /// <summary>On the machine, where its hour meter counts for the unit, or on the bench.</summary>
    public required WorkPlace Place { get; init; }

    /// <summary>The unit as recorded: its entries are not looked at again.</summary>
    public required Id<UnitWork> Unit { get; init; }

    /// <summary>Place on the machine.</summary>
    public required int? Position { get; init; }

    /// <summary>The reel named in the record.</summary>
    public required string? Reel { get; init; }

    /// <summary>The bedknife named in the record.</summary>
    public required string? Bedknife { get; init; }

    /// <summary>The sheet that it is held to.</summary>
    public required LimitSheet Sheet { get; init; }

    /// <summary>Lengths known of it.</summary>
    public required ImmutableArray<PlaceSeen> Places { get; init; }

    /// <summary>What was ground, in order.</summary>
    public required ImmutableArray<Grinding> Grindings { get; init; }

    /// <summary>What was fitted, in order.</summary>
    public required ImmutableArray<PartFitted> Fitted { get; init; }

    /// <summary>Clearance steps turned in less steps turned out, mean of both sides; null: none was turned.</summary>
    public required decimal? StepsIn { get; init; }

    /// <summary>Something was turned by an amount nobody noted, so that steps do not add up.</summary>
    public required bool HasUncounted { get; init; }

    /// <summary>What was turned or moved, by whatever amount.</summary>
    public required ImmutableArray<AdjusterKind> Turned { get; init; }

    /// <summary>Known steps between two readings of what they move.</summary>
    public required ImmutableArray<StepsTried> Tried { get; init; }

    /// <summary>
    /// The hour meter, where it counts for the unit: on the bench that of the machine that it came off, and not that of
    /// another whose units were on the bench with it.
    /// </summary>
    public OperatingHours? Hours => IsAway ? null : Machine.Hours;

    /// <summary>The machine that the record names is not the one that the unit works on.</summary>
    public bool IsAway { get; init; }

    /// <summary>The clearance was set anew from nothing: what was turned tells nothing of wear.</summary>
    public bool IsSetAnew =>
        !Grindings.IsEmpty
        || Fitted.Any(part => part.Part is PartKind.Reel or PartKind.Bedknife or PartKind.ReelBearing);

    /// <summary>What was ground of a size; lapping is none, paste takes next to nothing off.</summary>
    public IEnumerable<Grinding> Ground(MeasuredQuantity size) =>
        Grindings.Where(grinding => grinding.Kind != GrindingKind.Lapping && grinding.States == size);

    /// <summary>The reel was made sharp: its edge ground, and not only the metal behind it.</summary>
    public bool IsSharpened =>
        Ground(MeasuredQuantity.ReelDiameter).Any(grinding => grinding.Kind == GrindingKind.ReelSpin);

    /// <summary>
    /// A quantity as found or as left: the mean over the stations; a size stated without a station counts only where no
    /// station was read. The doubt is that of the worst known place.
    /// </summary>
    public SizeRead? Mean(MeasuredQuantity quantity, bool asFound)
    {
        var places = Places
            .Where(place => place.Quantity == quantity && (asFound ? place.AsFound : place.AsLeft))
            .ToList();
        var atStations = places.FindAll(place => place.Station is not null);
        var counted = atStations.Count > 0 ? atStations : places;
        return counted.Count == 0
            ? null
            : new(
                Length.FromMillimetres(
                    decimal.Round(counted.Average(place => place.Value.Value.Millimetres), Decimals)
                ),
                counted.Max(place => place.Value.Expanded.Value),
                counted[0].System
            );
    }

    private const int Decimals = 6;
}
