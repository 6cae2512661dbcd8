using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>Feelers that pass under all four corners of a unit on a plate: tries that cannot all be of one standing unit.</summary>
internal static class StandsOnNothing
{
    /// <summary>
    /// A feeler that passes under every corner: what stands on a plate touches it, so that these are no tries of one standing unit;
    /// null where some corner may touch.
    /// </summary>
    public static CheckOutcome? Outcome(UnitPlaces front, UnitPlaces rear)
    {
        var corners = new[] { (Roller: "front", Places: front), (Roller: "rear", Places: rear) }
            .SelectMany(roller =>
                roller.Places.Usable.Select(place => (roller.Roller, roller.Places, Place: place))
            )
            .ToList();
        var isLifted =
            front.Obstacles.IsEmpty
            && rear.Obstacles.IsEmpty
            && IsReadAtBothEnds(front)
            && IsReadAtBothEnds(rear)
            && corners.TrueForAll(corner =>
                corner.Place.Knowledge is LengthInterval { Lower: { } lower } && lower.Value > Length.Zero
            );
        if (!isLifted)
        {
            return null;
        }

        var told = corners.ConvertAll(corner =>
            $"{corner.Roller} {corner.Places.Said(corner.Place.Station, corner.Place.Blade)} {Wording.Of(corner.Place.Knowledge!, corner.Place.System)}"
        );
        return Told.Unproven(
            FindingReason.Conflicting,
            $"Roller twist: a feeler passes under all four corners, and what stands on a plate touches it: {string.Join("; ", told)}",
            Told.Sorted(corners.SelectMany(corner => corner.Place.Evidence)),
            new Remedy.ReadAgain(
                MeasuredQuantity.FrontRollerOnPlate,
                [.. front.Usable.Select(place => UnitPlaces.Name(place.Station, place.Blade))],
                "these are no tries of one standing unit: let it stand on the plate by itself, try all four corners of both rollers again, and where it rocks, hold one diagonal down for all of them"
            )
        );
    }

    private static bool IsReadAtBothEnds(UnitPlaces places) =>
        places.Usable.Any(place => place.Station is { } at && at * 2 < places.Width)
        && places.Usable.Any(place => place.Station is { } at && at * 2 > places.Width);
}
