using System.Collections.Immutable;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Which feelers decide at a place: one that passes proves t - e and more, one that does not less than t + e, t its thickness and
/// e the tolerance of the feelers tried there. The outermost place decides the end beyond it as well, where a line turns a gap
/// that just keeps its limit at the station into one that does not; so the feeler named is the one that settles both.
/// </summary>
internal static class SettlingFeelers
{
    public const string NoneAtTheEnd = "no feeler tried here settles the end: read nearer to it";

    /// <summary>None where nothing is open, or no tolerance of the feelers is known.</summary>
    public static string? Of(PlaceKnown place, CheckOutcome outcome, UnitPlaces places)
    {
        var name = UnitPlaces.Name(place.Station, place.Blade);
        if (
            outcome.Comparisons.FirstOrDefault(each => !each.IsAtEnd && each.Place == name)
                is not { } compared
            || place.Knowledge is not LengthInterval known
            || place.Feelers.Min(feeler => feeler.Tolerance) is not { } tolerance
        )
        {
            return null;
        }

        var ends = EndsBeyond(place, outcome, places);
        var here = new ReadingRoom(compared.LowerLimit, compared.UpperLimit);
        var both = Settled(Needed(place, ends, here, places), known, tolerance);
        var needed = both ?? here;
        var tail =
            ends.IsEmpty ? string.Empty
            : both is not null ? ", at the end as well"
            : " at this station alone; no feeler here settles the end: read nearer to it too";
        var isOpenBelow = needed.Least is { } least && !(known.Lower?.Value >= least);
        var isOpenAbove = needed.Greatest is { } greatest && !(known.Upper?.Value <= greatest);
        if (!isOpenBelow && !isOpenAbove)
        {
            var isEndOpen = outcome.Comparisons.Any(each =>
                each is { IsAtEnd: true, Verdict: Verdict.Unproven } && ends.Contains(AtOf(each, places))
            );
            return isEndOpen && both is null ? NoneAtTheEnd : null;
        }

        List<string> parts = [];
        if (isOpenBelow)
        {
            parts.Add(Below(needed.Least!.Value, compared.LowerLimit, tolerance, place.System) + tail);
        }

        if (isOpenAbove)
        {
            parts.Add(Above(needed.Greatest!.Value, compared.UpperLimit, tolerance, place.System) + tail);
        }

        return string.Join("; and ", parts);
    }

    private static ReadingRoom? Settled(ReadingRoom? room, LengthInterval known, Length tolerance) =>
        room is { } asked && CanBe(asked, known, tolerance) ? asked : null;

    /// <summary>What passes keeps the limit; what does not pass at a thickness below it shows the station out.</summary>
    private static string Below(Length least, Length? limit, Length tolerance, UnitSystem system) =>
        $"{Wording.AtLeast(least + tolerance, system)} or more passing"
        + (
            limit > tolerance
                ? $", or {Wording.AtMost(limit.Value - tolerance, system)} or less not passing,"
                : string.Empty
        )
        + " settles the lower limit";

    private static string Above(Length greatest, Length? limit, Length tolerance, UnitSystem system) =>
        string.Join(
            ", or ",
            new[]
            {
                greatest > tolerance
                    ? $"{Wording.AtMost(greatest - tolerance, system)} or less not passing"
                    : null,
                limit is { } most ? $"more than {Wording.AtLeast(most + tolerance, system)} passing" : null,
            }.OfType<string>()
        ) + " settles the upper limit";

    /// <summary>Whether a feeler thinner than what did not pass, and thicker than what passed, can still show that much.</summary>
    private static bool CanBe(ReadingRoom needed, LengthInterval known, Length tolerance) =>
        !(needed.Least > needed.Greatest)
        && (known.Lower?.Value >= needed.Least || !(needed.Least + (tolerance * 2) >= known.Upper?.Value))
        && (
            known.Upper?.Value <= needed.Greatest
            || !(needed.Greatest - (tolerance * 2) <= known.Lower?.Value)
        );

    /// <summary>The ends that were judged and that this place lies nearest to.</summary>
    private static ImmutableArray<Length> EndsBeyond(
        PlaceKnown place,
        CheckOutcome outcome,
        UnitPlaces places
    )
    {
        var along = places
            .Usable.Where(each => each.Blade == place.Blade && each.Station is not null)
            .Select(each => each.Station!.Value)
            .ToList();
        return
        [
            .. outcome
                .Comparisons.Where(each => each.IsAtEnd && IsOf(each, place.Blade))
                .Select(each => AtOf(each, places))
                .Where(at => place.Station == (at == Length.Zero ? along.Min() : along.Max())),
        ];
    }

    private static bool IsOf(Comparison end, int? blade) =>
        end.Place == EndName(end) + (UnitPlaces.Name(null, blade)["across".Length..]);

    private static string EndName(Comparison end) =>
        end.Place.StartsWith("left", StringComparison.Ordinal) ? "left end" : "right end";

    private static Length AtOf(Comparison end, UnitPlaces places) =>
        EndName(end) == "left end" ? Length.Zero : places.Width;

    /// <summary>
    /// What the place needs for itself and for those ends, the other places being anywhere in what is known of them and, once
    /// they are settled too, within the limits; none where that does not tell.
    /// </summary>
    private static ReadingRoom? Needed(
        PlaceKnown place,
        ImmutableArray<Length> ends,
        ReadingRoom limits,
        UnitPlaces places
    )
    {
        ImmutableArray<StationReading> readings =
        [
            .. places
                .Usable.Where(each => each.Blade == place.Blade && each.Station is not null)
                .Select(each => new StationReading(
                    each.Station!.Value,
                    each == place ? each.Knowledge! : Settled(each.Knowledge!.AsInterval(), limits)
                )),
        ];
        if (WidthFit.Through(readings, places.Width) is not { } line)
        {
            return null;
        }

        var index = line.Readings.Select(each => each.Station).ToList().IndexOf(place.Station!.Value);
        var (least, greatest) = (limits.Least, limits.Greatest);
        foreach (var end in ends)
        {
            if (line.RoomOf(index, end, limits.Least, limits.Greatest) is not { } room)
            {
                return null;
            }

            least = room.Least is { } from && !(least >= from) ? from : least;
            greatest = room.Greatest is { } to && !(greatest <= to) ? to : greatest;
        }

        return new(least, greatest);
    }

    private static LengthInterval Settled(LengthInterval known, ReadingRoom limits)
    {
        var lower = known.Lower ?? (limits.Least is { } least ? IntervalEnd.Closed(least) : null);
        var upper = known.Upper ?? (limits.Greatest is { } greatest ? IntervalEnd.Closed(greatest) : null);
        return LengthInterval.TryCreate(lower, upper, out var settled) ? settled : known;
    }
}
