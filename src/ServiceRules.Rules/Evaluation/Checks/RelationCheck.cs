using System.Collections.Immutable;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
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
        var judged = places
            .Usable.Select(place => Asked(check, place, OtherAt(place, others, check.Other)))
            .OfType<Asked>()
            .Select(asked => PlaceJudgement.Of(asked, zone, rule.Decision))
            .ToList();
        ImmutableArray<Obstacle> obstacles =
        [
            .. places.Obstacles.Select(obstacle => Named(obstacle, check.Quantity)),
            .. others.Obstacles.Select(obstacle => Named(obstacle, check.Other)),
        ];
        var outcome = JudgedPlaces.Outcome(
            $"{Wording.Of(check.Quantity)} against {Wording.Of(check.Other)}",
            judged,
            [.. obstacles.OrderBy(obstacle => obstacle.Gravity)],
            places.Usable.Concat(others.Usable).SelectMany(place => place.Evidence)
        );
        return outcome with
        {
            Remedy = outcome.Verdict switch
            {
                Verdict.NotMet => (Remedy?)Moved(check, unit, outcome) ?? new Remedy.Act(rule.Advice),
                Verdict.Unproven => ReadAgain.For(
                    outcome,
                    places.Obstacles.IsEmpty && !others.Obstacles.IsEmpty ? check.Other : check.Quantity,
                    places.Obstacles.IsEmpty && !others.Obstacles.IsEmpty ? others : places
                ),
                _ => null,
            },
        };
    }

    private static Obstacle Named(Obstacle obstacle, MeasuredQuantity quantity) =>
        obstacle with
        {
            Subject = Wording.Of(quantity),
        };

    private static DifferenceSide? OtherAt(PlaceKnown place, UnitPlaces others, MeasuredQuantity other)
    {
        var name = Wording.Of(other);
        if (others.Usable.FirstOrDefault(each => each.Station == place.Station) is { } same)
        {
            return DifferenceSide.Of(name, same);
        }

        if (others.Lines().FirstOrDefault() is { } line)
        {
            var at = place.Station is { } station ? line.Fit.At(station) : line.Fit.Offset;
            return DifferenceSide.Of(name, line, at);
        }

        return others.Usable.FirstOrDefault(each => each.Station is null) is { } single
            ? DifferenceSide.Of(name, single)
            : null;
    }

    /// <summary>Told from the one that stands higher, where either way is judged alike.</summary>
    private static Asked? Asked(Check.Relation check, PlaceKnown place, DifferenceSide? other)
    {
        if (other is null)
        {
            return null;
        }

        var at = UnitPlaces.Name(place.Station, place.Blade);
        var own = DifferenceSide.Of(Wording.Of(check.Quantity), place);
        var flipped = check.How is QuantityRelation.EqualTo && other.IsAbove(own);
        var asked = flipped ? other.Above(own, check.Quantity, at) : own.Above(other, check.Quantity, at);
        return asked with
        {
            Said = at == "across" ? asked.Said : $"at {at} {asked.Said}",
            System = place.System,
        };
    }

    /// <summary>Both sides by what the worst place is off, where the quantity has an adjuster.</summary>
    private static Remedy.Move? Moved(Check.Relation check, UnitFrame unit, CheckOutcome outcome)
    {
        if (
            AdjustedQuantity.FinelySetBy(check.Quantity) is not { } kind
            || outcome.Comparisons[0].Value is null
            || Off(check, unit, outcome.Comparisons[0].Place) is not { } off
        )
        {
            return null;
        }

        var turned = new Adjustment
        {
            Adjuster = kind,
            Side = Side.Both,
            Amount = new AdjustmentAmount.NotStated(),
        };
        var move = Length.FromMillimetres(Math.Round(-off.Millimetres, 4));
        return new(kind, move, move, [.. ReadAgain.After(unit, [turned])]);
    }

    private static Length? Off(Check.Relation check, UnitFrame unit, string at)
    {
        var place = UnitPlaces
            .Of(unit, check.Quantity)
            .Usable.First(each => UnitPlaces.Name(each.Station, each.Blade) == at);
        var other = OtherAt(place, UnitPlaces.Of(unit, check.Other), check.Other);
        return place.Knowledge is MeasuredValue own && other?.Knowledge is MeasuredValue against
            ? own.Value - against.Value
            : null;
    }
}
