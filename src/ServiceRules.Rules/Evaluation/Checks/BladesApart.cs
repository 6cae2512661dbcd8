using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Blades of one reel that stand apart from the others at a station: an adjuster moves all of them alike, so that turning for the one
/// takes the others out. The blade is named, and nothing is turned for it.
/// </summary>
internal static class BladesApart
{
    public const string NotEveryBlade =
        "it is out on one blade, and not every blade was read: moving the unit moves all of them";

    private const string Unknown =
        "no steps bring every blade in, and whether one stands apart from the others is not known";

    /// <summary>What has to be read before anything is turned: a station where some blades were read and others were not.</summary>
    public static Remedy.ReadAgain? NotRead(MeasuredQuantity quantity, UnitPlaces places)
    {
        ImmutableArray<string> unread =
        [
            .. places.Obstacles.Where(obstacle => obstacle.OnSomeBlades).Select(obstacle => obstacle.Place),
        ];
        return unread.IsEmpty ? null : new(quantity, unread, NotEveryBlade);
    }

    /// <summary>
    /// None where no blade was named, or none is proven to stand apart from the others and, by the most credible of what is known, by
    /// more than half of what the limits leave. Metal is taken off for it: what only seems so is read again (<see cref="NotTold"/>).
    /// </summary>
    public static Remedy.Act? Of(
        MeasuredQuantity quantity,
        UnitFrame unit,
        UnitPlaces places,
        PrintedZone zone
    ) =>
        Told(
            unit,
            quantity,
            [
                .. Departures(quantity, places, zone)
                    .Where(each => each.IsProven)
                    .Select(each => (each.Place, each.By > Length.Zero)),
            ]
        );

    /// <summary>The blades that seem to stand as far apart where it is not proven, to be read again before anything is turned; else none.</summary>
    public static Remedy.ReadAgain? NotTold(MeasuredQuantity quantity, UnitPlaces places, PrintedZone zone)
    {
        var likely = Departures(quantity, places, zone).Where(each => !each.IsProven).ToList();
        return likely.Count == 0
            ? null
            : new(
                quantity,
                [
                    .. likely
                        .OrderBy(each => each.Place.Station)
                        .ThenBy(each => each.Place.Blade)
                        .Select(each => UnitPlaces.Name(each.Place.Station, each.Place.Blade)),
                ],
                likely.Exists(each => each.Place.Knowledge is LengthInterval)
                    ? $"{Unknown}: try the same feelers under all of them"
                    : $"{Unknown}: read all of them with a finer gauge"
            );
    }

    /// <summary>The blades that by the most credible of what is known stand further from the middle one of their station than half of the room.</summary>
    private static IEnumerable<(PlaceKnown Place, Length By, bool IsProven)> Departures(
        MeasuredQuantity quantity,
        UnitPlaces places,
        PrintedZone zone
    )
    {
        var named = places.Usable.Where(place => place is { Blade: not null, Station: not null }).ToList();
        return named.Count == 0 || NearestSteps.HeldTo(zone, places.Usable).Width is not { } room
            ? []
            : named
                .GroupBy(place => place.Station)
                .SelectMany(station => Departures(quantity, [.. station]))
                .Where(each => each.By.Abs * 2 > room);
    }

    /// <summary>How far each blade stands from the middle one of its station; of an even number from the tighter of the two in the middle.</summary>
    private static IEnumerable<(PlaceKnown Place, Length By, bool IsProven)> Departures(
        MeasuredQuantity quantity,
        List<PlaceKnown> station
    )
    {
        var known = station
            .Select(place => (Place: place, At: Credible(quantity, place)))
            .Where(each => each.At is not null)
            .OrderBy(each => each.At!.Value)
            .ToList();
        if (known.Count < 2)
        {
            return [];
        }

        var middle = known[(known.Count - 1) / 2];
        return known.Select(each =>
            (
                each.Place,
                each.At!.Value - middle.At!.Value,
                AreProvenApart(quantity, each.Place, middle.Place)
            )
        );
    }

    private static Length? Credible(MeasuredQuantity quantity, PlaceKnown place)
    {
        var known = StepRemedy.Bounded(place.Knowledge!, quantity);
        return known.Middle ?? known.Least ?? known.Greatest;
    }

    /// <summary>
    /// By their difference, what one gauge shares left out; or because one feeler passes under the one and not under the other,
    /// whatever its tolerance.
    /// </summary>
    private static bool AreProvenApart(MeasuredQuantity quantity, PlaceKnown one, PlaceKnown other) =>
        !KnownDifference
            .Between(
                StepRemedy.Bounded(one.Knowledge!, quantity),
                StepRemedy.Bounded(other.Knowledge!, quantity),
                one.Shared,
                other.Shared
            )
            .AsInterval()
            .Contains(Length.Zero)
        || PassesUnderOne(one, other)
        || PassesUnderOne(other, one);

    private static bool PassesUnderOne(PlaceKnown wider, PlaceKnown tighter) =>
        wider.Feelers.Any(passed =>
            passed.Passes
            && tighter.Feelers.Any(stopped => !stopped.Passes && stopped.Thickness == passed.Thickness)
        );

    /// <summary>Which blades stand apart, and what to do; none where none does.</summary>
    public static Remedy.Act? Told(
        UnitFrame unit,
        MeasuredQuantity quantity,
        ImmutableArray<(PlaceKnown Place, bool IsWider)> apart
    )
    {
        if (apart.IsEmpty)
        {
            return null;
        }

        var said = UnitPlaces.Of(unit, quantity);
        var stands = apart
            .GroupBy(each => each.Place.Blade!.Value)
            .OrderBy(blade => blade.Key)
            .Select(blade =>
                (
                    Blade: blade.Key,
                    How: blade.All(each => each.IsWider) ? "wider"
                    : blade.All(each => !each.IsWider) ? "tighter"
                    : "otherwise",
                    Where: Wording.Listed([
                        .. blade
                            .OrderBy(each => each.Place.Station)
                            .Select(each => said.Said(each.Place.Station, null)),
                    ])
                )
            )
            .GroupBy(each => (each.How, each.Where))
            .Select(alike =>
                $"{Blades([.. alike.Select(each => each.Blade)])} {(alike.Count() == 1 ? "stands" : "stand")} {alike.Key.How} than the others at {alike.Key.Where}"
            );
        var all = Blades([.. apart.Select(each => each.Place.Blade!.Value).Distinct().Order()]);
        var harm = apart.All(each => each.IsWider)
            ? "closing the unit for that would drive the others towards the bedknife"
            : "turning the unit for that would put the others out";
        return new(
            $"{string.Join(", and ", stands)}: no adjuster moves one blade alone, and {harm}; put {all} right: straighten, or grind the reel; then read every blade again"
        );
    }

    private static string Blades(ImmutableArray<int> blades) =>
        (blades.Length == 1 ? "blade " : "blades ")
        + Wording.Listed([.. blades.Select(blade => blade.ToString(CultureInfo.InvariantCulture))]);
}
