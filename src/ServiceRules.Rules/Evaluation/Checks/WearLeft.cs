using System.Globalization;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Wear;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// What is left of a part that wears, in words, where the sheet says how fast it is used up or the record shows what a
/// grind took. Never a verdict: a note beside the one on the limit.
/// </summary>
internal static class WearLeft
{
    public static IEnumerable<string> Notices(MeasuredQuantity quantity, UnitFrame unit, UnitPlaces places)
    {
        var limit = unit.Sheet.Of(quantity);
        var worn = places
            .Usable.Where(place => place.Knowledge is MeasuredValue)
            .OrderBy(place => ((MeasuredValue)place.Knowledge!).Value)
            .ToList();
        if (worn.Count == 0)
        {
            return [];
        }

        var system = worn[0].System;
        // Read in both units it is held to both prints, so what is left is left above the stricter of them.
        var isReadInBoth = worn.Exists(place => place.IsReadInBoth || place.System != system);
        Length? Least() => PrintedZone.Of(limit?.Lower, null, null)?.For(system, isReadInBoth).Lower;
        return quantity switch
        {
            MeasuredQuantity.ReelDiameter when Least() is { } least => OfReel(
                unit,
                Value(worn[0]),
                least,
                system
            ),
            MeasuredQuantity.BedknifeLip when Least() is { } least => OfLip(
                unit,
                Value(worn[0]),
                least,
                system
            ),
            MeasuredQuantity.LandWidth
                when PrintedZone.Of(null, limit?.Upper, null)?.For(system, isReadInBoth).Upper is { } most =>
                OfLand(unit, Value(worn[^1]), most, system),
            _ => [],
        };
    }

    private static Length Value(PlaceKnown place) => ((MeasuredValue)place.Knowledge!).Value;

    private static IEnumerable<string> OfReel(
        UnitFrame unit,
        Length diameter,
        Length limit,
        UnitSystem system
    )
    {
        var left = ReelLife.Remaining(diameter, limit);
        if (left <= Length.Zero)
        {
            yield break;
        }

        var lead =
            $"{Wording.Of(left, system)} of diameter left above the limit of {Wording.Of(limit, system)}";
        if (unit.Sheet.Wear is { } wear)
        {
            List<string> parts = [];
            if (wear.ReelPerGrind?.In(system) is { } perGrind)
            {
                parts.Add(
                    Grinds(ReelLife.GrindsLeft(diameter, limit, perGrind))
                        + $" at {Wording.Of(perGrind, system)} from grind to grind"
                );
            }

            if (wear.ReelPerHour is { } perHour && ReelLife.HoursLeft(diameter, limit, perHour) is { } hours)
            {
                parts.Add($"about {Whole(hours.Hours)} h at {Rate(perHour, system)}, grinding aside");
            }

            if (parts.Count > 0)
            {
                yield return $"{lead}: {string.Join(", or ", parts)} (derived; {BasisWords.Of(wear.Basis)})";
                yield break;
            }
        }

        if (GroundOff(unit, GrindingKind.ReelSpin, GrindingKind.ReelRelief) is { } took)
        {
            yield return $"{lead}: {Grinds(ReelLife.GrindsLeft(diameter, limit, took))} "
                + $"at the {Wording.Of(took, system)} that this grind took, wear between grinds not counted (derived)";
        }
    }

    private static IEnumerable<string> OfLip(UnitFrame unit, Length lip, Length limit, UnitSystem system)
    {
        var left = BedknifeLife.Remaining(lip, limit);
        if (left > Length.Zero && unit.Sheet.Wear is { LipPerFacing: { } perFacing } wear)
        {
            var each = perFacing.In(system);
            yield return $"{Wording.Of(left, system)} of lip left above the limit of {Wording.Of(limit, system)}: "
                + $"{Counted(BedknifeLife.FacingsLeft(lip, limit, each), "facing")} at {Wording.Of(each, system)} each "
                + $"({BasisWords.Of(wear.Basis)})";
        }
    }

    private static IEnumerable<string> OfLand(UnitFrame unit, Length land, Length limit, UnitSystem system)
    {
        if (unit.Sheet.Wear is not { ReliefAngle: { } relief } wear)
        {
            yield break;
        }

        var left = LandGrowth.DiameterToLimit(land, limit, relief);
        if (left <= Length.Zero)
        {
            yield break;
        }

        var grinds = wear.ReelPerGrind?.In(system) is { } perGrind
            ? ", " + Grinds(ReelLife.GrindsLeft(left, Length.Zero, perGrind))
            : string.Empty;
        yield return $"the land reaches its limit of {Wording.Of(limit, system)} after about "
            + $"{Rounded(left, system)} more of reel diameter{grinds}, at a relief of {relief} from the tangent "
            + $"(derived; {BasisWords.Of(wear.Basis)}): grind relief before then";
    }

    /// <summary>What the last grind of these kinds took off, where the record states both sizes.</summary>
    private static Length? GroundOff(UnitFrame unit, params GrindingKind[] kinds) =>
        unit
            .Work.Entries.OfType<Grinding>()
            .Where(grind => kinds.Contains(grind.Kind) && grind is { Before: not null, After: not null })
            .Select(grind => (Length?)(grind.Before!.Value - grind.After!.Value))
            .LastOrDefault(took => took > Length.Zero);

    private static string Grinds(int count) =>
        count == 0 ? Counted(count, "grind") : "about " + Counted(count, "grind");

    private static string Counted(int count, string what) =>
        count switch
        {
            0 => $"less than one {what}",
            1 => $"1 {what}",
            _ => $"{count.ToString(CultureInfo.InvariantCulture)} {what}s",
        };

    private static string Whole(decimal hours) => decimal.Floor(hours).ToString(CultureInfo.InvariantCulture);

    private static string Rounded(Length length, UnitSystem system) =>
        system is UnitSystem.Inch
            ? length.ToString(LengthUnit.Inch, 3)
            : length.ToString(LengthUnit.Millimetre, 2);

    private static string Rate(WearRate rate, UnitSystem system) =>
        system is UnitSystem.Inch
            ? Math.Round(rate.MillimetresPerHour / 25.4m, 6)
                .ToString("0.######", CultureInfo.InvariantCulture) + " in/h"
            : Math.Round(rate.MillimetresPerHour, 5).ToString("0.#####", CultureInfo.InvariantCulture)
                + " mm/h";
}
