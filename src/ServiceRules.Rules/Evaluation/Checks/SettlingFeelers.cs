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
    public const string NoneAtTheEnd = "no feeler tried here settles the end: read within 5 mm of it";

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
            : " at this station alone; no feeler here settles the end: read within 5 mm of it too";
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
            parts.Add(Below(needed.Least!.Value, compared.LowerLimit, known, tolerance, place) + tail);
        }

        if (isOpenAbove)
        {
            parts.Add(Above(needed.Greatest!.Value, compared.UpperLimit, known, tolerance, place) + tail);
        }

        return string.Join("; and ", parts);
    }

    private static ReadingRoom? Settled(ReadingRoom? room, LengthInterval known, Length tolerance) =>
        room is { } asked && CanBe(asked, known, tolerance) ? asked : null;

    /// <summary>What passes keeps the limit; what does not pass at a thickness below it shows the station out.</summary>
    private static string Below(
        Length least,
        Length? limit,
        LengthInterval known,
        Length tolerance,
        PlaceKnown place
    )
    {
        var passing = FeelersAtHand.AtLeast(least + tolerance, place);
        // A blade as thick as one that did not pass is no advice, nor one that cannot pass by what was tried.
        var isAtHand = !(passing - tolerance >= known.Upper?.Value) && !IsStopped(passing, place);
        return (
                isAtHand
                    ? $"{Wording.AtLeast(passing, place.System)} or more passing"
                    : $"{Wording.AtLeast(least + tolerance, place.System)} or more passing, which no usual set holds below what did not pass,"
            )
            + (
                limit is { } stated
                && FeelersAtHand.AtMost(stated - tolerance, place) is { } stopped
                && !IsPassed(stopped, place)
                    ? $"{(isAtHand ? "," : string.Empty)} or {Wording.AtMost(stopped, place.System)} or less not passing,"
                    : string.Empty
            )
            + " settles the lower limit";
    }

    private static string Above(
        Length greatest,
        Length? limit,
        LengthInterval known,
        Length tolerance,
        PlaceKnown place
    )
    {
        var stopped = FeelersAtHand.AtMost(greatest - tolerance, place);
        var isAtHand =
            stopped is not null
            && !(stopped + tolerance <= known.Lower?.Value)
            && !IsPassed(stopped.Value, place);
        var more =
            limit is { } most
            && FeelersAtHand.Above(most + tolerance, place) is var beyond
            && !IsStopped(beyond, place)
                ? $"{Wording.AtLeast(beyond, place.System)} or more passing"
                : null;
        return string.Join(
                " or ",
                new[]
                {
                    isAtHand
                        ? $"{Wording.AtMost(stopped!.Value, place.System)} or less not passing{(more is null ? string.Empty : ",")}"
                    : greatest > tolerance
                        ? $"{Wording.AtMost(greatest - tolerance, place.System)} or less not passing, which no usual set holds above what passed,"
                    : null,
                    more,
                }.OfType<string>()
            ) + " settles the upper limit";
    }

    /// <summary>Whether one no thicker did not pass: then neither will it.</summary>
    private static bool IsStopped(Length thickness, PlaceKnown place) =>
        place.Feelers.Any(feeler => !feeler.Passes && feeler.Thickness <= thickness);

    /// <summary>Whether one no thinner passed: then it will too.</summary>
    private static bool IsPassed(Length thickness, PlaceKnown place) =>
        place.Feelers.Any(feeler => feeler.Passes && feeler.Thickness >= thickness);

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
