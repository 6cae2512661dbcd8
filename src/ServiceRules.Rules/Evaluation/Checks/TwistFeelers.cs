using System.Collections.Immutable;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Which feelers decide twist that the corners leave open. Under a corner that stands no feeler ever passes, so that a thinner one
/// which does not pass is what narrows it; under a high corner it is one that stops above what passed. Each is tried out on the line
/// of its roller, the other corners being anywhere in what is known of them.
/// </summary>
/// <param name="front">The corners of the front roller.</param>
/// <param name="rear">Those of the rear one.</param>
/// <param name="most">The limit, in the print that the readings are held against.</param>
/// <param name="twist">What the twist then is, between corners that are known so.</param>
internal sealed class TwistFeelers(
    UnitPlaces front,
    UnitPlaces rear,
    Length most,
    Func<Func<PlaceKnown, PlaceKnown>, Func<PlaceKnown, PlaceKnown>, Knowledge?> twist
)
{
    // A set holds none thinner, and beyond some limits' worth above what is known nothing is left to settle.
    private const int MostTried = 400;

    private sealed record Corner(MeasuredQuantity Roller, PlaceKnown Place, string Name, LengthInterval Known)
    {
        public Length? Tolerance => Place.Feelers.Min(feeler => feeler.Tolerance);

        public bool Stands => !(Known.Lower?.Value > Length.Zero);

        public Length Step =>
            Place.System is UnitSystem.Inch ? Length.FromInches(0.0005m) : Length.FromMillimetres(0.01m);
    }

    /// <summary>None where a corner was not tried with feelers, or no tolerance of them is known.</summary>
    public Remedy.ReadAgain? Settling()
    {
        var corners = Of(MeasuredQuantity.FrontRollerOnPlate, front, "front")
            .Concat(Of(MeasuredQuantity.RearRollerOnPlate, rear, "rear"))
            .ToList();
        if (corners.Exists(corner => corner.Tolerance is null))
        {
            return null;
        }

        // One that nothing bounds from above first, then the least known.
        var byDoubt = corners
            .OrderByDescending(corner => corner.Known.Width is null)
            .ThenByDescending(corner => corner.Known.Width ?? Length.Zero)
            .ToList();
        foreach (var corner in byDoubt)
        {
            if (Stopping(corner, new Dictionary<Corner, LengthInterval>()) is { } stops)
            {
                return Asking([corner], $"{corner.Name}: {Stop(stops, corner)} shows it in{Out(corner)}");
            }
        }

        return Together(byDoubt)
            ?? byDoubt
                .Select(corner =>
                    Passing(corner) is { } passes
                        ? Asking(
                            [corner],
                            $"no feeler of a usual set shows it in; {corner.Name}: {Pass(passes, corner)} shows it out; else read the gaps of the corners with a gauge that measures"
                        )
                        : null
                )
                .FirstOrDefault(asked => asked is not null)
            ?? Asking(
                [byDoubt[0]],
                "no feeler of a usual set settles it: read the gaps of the corners with a gauge that measures"
            );
    }

    /// <summary>The thickest feeler that stops at each corner that stands, and with it one that stops at a high one.</summary>
    private Remedy.ReadAgain? Together(List<Corner> corners)
    {
        var standing = corners.Where(corner => corner.Stands).ToList();
        var high = corners.Where(corner => !corner.Stands).ToList();
        if (standing.Count == 0)
        {
            return null;
        }

        var from = standing.Max(corner => corner.Known.Upper?.Value ?? most * 2);
        foreach (var thickness in Down(from, standing[0].Step))
        {
            var narrowed = standing.ToDictionary(
                corner => corner,
                corner => UpTo(corner, thickness + corner.Tolerance!.Value)
            );
            var lacking = standing.Where(corner => narrowed[corner] != corner.Known).ToList();
            if (lacking.Count == 0)
            {
                continue;
            }

            var told =
                $"{Wording.Listed([.. lacking.Select(corner => corner.Name)])}: {Stop(thickness, lacking[0])}";
            if (IsIn(narrowed))
            {
                return Asking(
                    lacking,
                    $"{told}{(lacking.Count > 1 ? " under each" : string.Empty)} shows it in"
                );
            }

            foreach (var corner in high)
            {
                if (Stopping(corner, narrowed) is { } stops)
                {
                    return Asking(
                        [corner, .. lacking],
                        $"{corner.Name}: {Stop(stops, corner)}, and {told}, together show it in{Out(corner)}"
                    );
                }
            }
        }

        return null;
    }

    private static Remedy.ReadAgain Asking(IReadOnlyList<Corner> corners, string why) =>
        new(
            corners[0].Roller,
            [
                .. corners
                    .Where(corner => corner.Roller == corners[0].Roller)
                    .Select(corner => UnitPlaces.Name(corner.Place.Station, corner.Place.Blade)),
            ],
            $"which feelers settle the twist: {why}"
        );

    private string Out(Corner corner) =>
        Passing(corner) is { } passes ? $"; {Pass(passes, corner)} shows it out" : string.Empty;

    private static string Stop(Length thickness, Corner corner) =>
        $"{Wording.AtMost(thickness, corner.Place.System)} or less not passing";

    private static string Pass(Length thickness, Corner corner) =>
        $"{Wording.AtLeast(thickness, corner.Place.System)} or more passing";

    /// <summary>The thickest feeler that shows the twist in by not passing there; none where none can.</summary>
    private Length? Stopping(Corner corner, IReadOnlyDictionary<Corner, LengthInterval> others)
    {
        var lowest = corner.Known.Lower?.Value ?? Length.Zero;
        var highest = corner.Known.Upper?.Value ?? lowest + (most * 4);
        foreach (var thickness in Down(highest, corner.Step))
        {
            if (
                thickness + corner.Tolerance!.Value <= lowest
                || corner.Place.Feelers.Any(feeler => feeler.Passes && feeler.Thickness >= thickness)
            )
            {
                return null;
            }

            var narrowed = UpTo(corner, thickness + corner.Tolerance!.Value);
            if (
                narrowed != corner.Known
                && IsIn(others.Where(other => other.Key != corner).Append(new(corner, narrowed)))
            )
            {
                return thickness;
            }
        }

        return null;
    }

    /// <summary>The thinnest feeler that shows the twist out by passing there; none where none can.</summary>
    private Length? Passing(Corner corner)
    {
        var lowest = corner.Known.Lower?.Value ?? Length.Zero;
        var first = decimal.Floor(lowest.Millimetres / corner.Step.Millimetres) + 1;
        for (var step = first; step < first + MostTried; step++)
        {
            var thickness = corner.Step * step;
            if (
                thickness > lowest + (most * 4)
                || corner.Place.Feelers.Any(feeler => !feeler.Passes && feeler.Thickness <= thickness)
                || !LengthInterval.TryCreate(
                    IntervalEnd.Closed(thickness - corner.Tolerance!.Value),
                    corner.Known.Upper,
                    out var narrowed
                )
            )
            {
                return null;
            }

            if (Twisted([new(corner, narrowed)]) is { } known && IsOutside(known))
            {
                return thickness;
            }
        }

        return null;
    }

    private static IEnumerable<Length> Down(Length from, Length step)
    {
        var steps = decimal.Min(MostTried, decimal.Floor(from.Millimetres / step.Millimetres));
        for (var count = steps; count >= 1; count--)
        {
            yield return step * count;
        }
    }

    private static LengthInterval UpTo(Corner corner, Length upper) =>
        corner.Known.Meet(LengthInterval.LessThan(upper)) is IntervalMeeting.Overlap overlap
            ? overlap.Interval
            : corner.Known;

    private bool IsIn(IEnumerable<KeyValuePair<Corner, LengthInterval>> narrowed) =>
        Twisted(narrowed) is { } known && known.Lower?.Value >= -most && known.Upper?.Value <= most;

    private bool IsOutside(LengthInterval known) => known.Lower?.Value > most || known.Upper?.Value < -most;

    private LengthInterval? Twisted(IEnumerable<KeyValuePair<Corner, LengthInterval>> narrowed)
    {
        var told = narrowed.ToList();
        PlaceKnown Narrowed(PlaceKnown place, MeasuredQuantity roller) =>
            told.Find(each => each.Key.Roller == roller && each.Key.Place.Station == place.Station)
                is { Key: not null } found
                ? place with
                {
                    Knowledge = found.Value,
                }
                : place;
        return twist(
            place => Narrowed(place, MeasuredQuantity.FrontRollerOnPlate),
            place => Narrowed(place, MeasuredQuantity.RearRollerOnPlate)
        )
            ?.AsInterval();
    }

    private static ImmutableArray<Corner> Of(MeasuredQuantity roller, UnitPlaces places, string name) =>
        [
            .. places
                .Usable.Where(place => place is { Station: not null, Knowledge: LengthInterval })
                .Select(place => new Corner(
                    roller,
                    place,
                    $"{name} {(place.Station!.Value * 2 < places.Width ? "left" : "right")}",
                    ((LengthInterval)place.Knowledge!).Meet(LengthInterval.AtLeast(Length.Zero))
                        is IntervalMeeting.Overlap overlap
                        ? overlap.Interval
                        : (LengthInterval)place.Knowledge!
                )),
        ];
}
