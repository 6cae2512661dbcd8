using System.Collections.Immutable;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Bench;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// One quantity against another, as left, wherever the first was read: at the same station, else by the other's line,
/// else where the other has its one place.
/// </summary>
internal static class RelationCheck
{
    public static CheckOutcome Evaluate(Check.Relation check, Rule rule, JobFrame frame, UnitFrame? unit)
    {
        if (unit is null)
        {
            return Subjects.EachUnit(rule, frame);
        }

        var places = UnitPlaces.Of(unit, check.Quantity);
        var others = UnitPlaces.Of(unit, check.Other);
        var zone =
            check.How is QuantityRelation.EqualTo
                ? PrintedZone.Within(check.Allowance)
                : PrintedZone.AtMost(check.Allowance);
        var pairs = Pairs(check, places, others);
        IEnumerable<PlaceJudgement> Judged(IEnumerable<RelatedPair> related) =>
            related.Select(pair =>
                PlaceJudgement.Of(Asked(check, pair.Place, pair.Other), zone, rule.Decision)
            );

        var contested = ContestedBreach.Among(
            [places, others],
            believed => Judged(Pairs(check, believed[0], believed[1]))
        );
        ImmutableArray<Obstacle> obstacles =
        [
            .. places.Obstacles.Select(obstacle => Named(obstacle, check.Quantity)),
            .. others.Obstacles.Select(obstacle => Named(obstacle, check.Other)),
        ];
        var outcome = JudgedPlaces.Outcome(
            $"{Wording.Of(check.Quantity)} against {Wording.Of(check.Other)}",
            [.. Judged(pairs), .. contested],
            [.. obstacles.OrderBy(obstacle => obstacle.Gravity)],
            places.Usable.Concat(others.Usable).SelectMany(place => place.Evidence)
        );
        outcome = outcome with
        {
            Notices =
            [
                .. outcome.Notices,
                .. check is { Quantity: MeasuredQuantity.GroomerHeight, Other: MeasuredQuantity.HeightOfCut }
                    ? GroomerNote.Notices(places, others)
                    : [],
            ],
            Remedy = outcome.Verdict switch
            {
                Verdict.NotMet => (Remedy?)Moved(check, unit, outcome, pairs) ?? new Remedy.Act(rule.Advice),
                Verdict.Unproven => (Remedy?)(
                    LikelyOut.Is(outcome, [.. places.Obstacles, .. others.Obstacles])
                        ? Moved(check, unit, outcome, pairs)
                        : null
                )
                    ?? ReadAgain.For(
                        outcome,
                        places.Obstacles.IsEmpty && !others.Obstacles.IsEmpty ? check.Other : check.Quantity,
                        places.Obstacles.IsEmpty && !others.Obstacles.IsEmpty ? others : places
                    ),
                _ => null,
            },
        };
        return ContestedBreach.Told(outcome, contested, (check.Quantity, places), (check.Other, others));
    }

    private static List<RelatedPair> Pairs(Check.Relation check, UnitPlaces places, UnitPlaces others) =>
        [
            .. places.Usable.SelectMany(
                place => OthersAt(place, others, check.Other),
                (place, other) => new RelatedPair(place, other)
            ),
        ];

    private static Obstacle Named(Obstacle obstacle, MeasuredQuantity quantity) =>
        obstacle with
        {
            Subject = Wording.Of(quantity),
        };

    /// <summary>
    /// What a place is held against: what was read there, of its own blade or, where that is not named, of every blade;
    /// else every line at that place; else what is known in one place.
    /// </summary>
    private static IEnumerable<(int? Blade, DifferenceSide Side)> OthersAt(
        PlaceKnown place,
        UnitPlaces others,
        MeasuredQuantity other
    )
    {
        var name = Wording.Of(other);
        var same = OfBlade(
            place,
            [.. StationPlaces.At(others.Usable, place.Station, each => each.Station)],
            each => each.Blade
        );
        if (same.Count > 0)
        {
            return same.Select(each => (each.Blade, DifferenceSide.Of(name, each)));
        }

        var at = place.Station ?? others.Width * 0.5m;
        var lines = OfBlade(
            place,
            others.AllLines().Where(line => line.Reaches(at)).ToList(),
            line => line.Blade
        );
        return lines.Count > 0
            ? lines.Select(line =>
                (
                    line.Blade,
                    DifferenceSide.Of(
                        name,
                        line,
                        each => place.Station is { } station ? each.Fit.At(station) : each.Fit.Offset
                    )
                )
            )
            : OfBlade(place, others.Usable.Where(each => each.Station is null).ToList(), each => each.Blade)
                .Select(each => (each.Blade, DifferenceSide.Of(name, each)));
    }

    private static List<T> OfBlade<T>(PlaceKnown place, List<T> candidates, Func<T, int?> bladeOf)
    {
        var own = candidates.FindAll(candidate => bladeOf(candidate) == place.Blade);
        return own.Count > 0 ? own : candidates;
    }

    /// <summary>Told from the one that stands higher, where either way is judged alike.</summary>
    private static Asked Asked(
        Check.Relation check,
        PlaceKnown place,
        (int? Blade, DifferenceSide Side) against
    )
    {
        var at = PlaceOf(place, against.Blade);
        var other = against.Side;
        var own = DifferenceSide.Of(Wording.Of(check.Quantity), place);
        var flipped = check.How is QuantityRelation.EqualTo && other.IsAbove(own);
        var asked = flipped ? other.Above(own, check.Quantity, at) : own.Above(other, check.Quantity, at);
        return asked with
        {
            Said = at == "across" ? asked.Said : $"at {at} {asked.Said}",
            Where = at,
            System = place.System,
        };
    }

    /// <summary>
    /// Each side by itself where it was read at two places or more; else both by what the place is off. None where the quantity has no
    /// adjuster, or nothing that is turned brings every place in.
    /// </summary>
    private static Remedy.Move? Moved(
        Check.Relation check,
        UnitFrame unit,
        CheckOutcome outcome,
        List<RelatedPair> pairs
    )
    {
        var worst = outcome.Comparisons[0];
        if (
            pairs.Find(pair => PlaceOf(pair.Place, pair.Other.Blade) == worst.Place) is not var (place, other)
            || AdjustedQuantity.FinelySetBy(check.Quantity) is not { } kind
            || place.Knowledge is not MeasuredValue own
            || other.Side.Knowledge is not MeasuredValue against
        )
        {
            return null;
        }

        // What one blade tells says nothing of the other end.
        if (
            pairs.TrueForAll(pair => pair.Place.Blade is null && pair.Other.Blade is null)
            && pairs.Select(pair => pair.Place.Station).Distinct().Count() > 1
        )
        {
            return EachSide.Moved(
                kind,
                unit,
                [.. pairs.Select(pair => Off(check, pair)).OfType<PlaceOff>()],
                worst
            );
        }

        var turned = new Adjustment
        {
            Adjuster = kind,
            Side = Side.Both,
            Amount = new AdjustmentAmount.NotStated(),
        };
        var move = against.Value - own.Value;
        return new(kind, move, move, [.. ReadAgain.After(unit, [turned])]);
    }

    /// <summary>How far a place is off; none where that is known to no figure, or it has no station.</summary>
    private static PlaceOff? Off(Check.Relation check, RelatedPair pair) =>
        pair.Place.Station is { } at
        && DifferenceSide
            .Of(Wording.Of(check.Quantity), pair.Place)
            .Above(pair.Other.Side, check.Quantity, string.Empty)
            .Knowledge
            is MeasuredValue off
            ? new(at, off.Value, off.Expanded.Value)
            : null;

    private static string PlaceOf(PlaceKnown place, int? otherBlade) =>
        UnitPlaces.Name(place.Station, place.Blade ?? otherBlade);

    /// <summary>A place and what it is held against.</summary>
    private sealed record RelatedPair(PlaceKnown Place, (int? Blade, DifferenceSide Side) Other);
}
