using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Where two gauges read one place, a finding says whether it is the gauge or the unit: always when they disagree, and when
/// they agree only where something is out. Where a gauge contradicts itself it says so, and where only some of many readings
/// count, which. Tries that contradict one another and readings that were taken back are told beside it.
/// </summary>
internal static class GaugeNotices
{
    public static CheckOutcome Added(CheckOutcome outcome, Check check, UnitFrame? unit) =>
        unit is null || outcome.Verdict is Verdict.NotApplicable
            ? outcome
            : outcome with
            {
                Notices =
                [
                    .. outcome.Notices,
                    .. QuantitiesOf(check)
                        .SelectMany(quantity => Alike.Once(Told(unit, check, quantity, outcome.Verdict))),
                    .. QuantitiesOf(check).SelectMany(quantity => Corrected(unit, quantity)),
                    .. TriedIn(check).SelectMany(quantity => TriesNotices.Of(outcome, unit, quantity)),
                ],
            };

    private static IEnumerable<(string Where, string Told)> Told(
        UnitFrame unit,
        Check check,
        MeasuredQuantity quantity,
        Verdict verdict
    )
    {
        var places = UnitPlaces.Of(unit, quantity);
        foreach (var place in unit.Of(quantity)?.Left ?? [])
        {
            if (place.State is KnownState.Stale)
            {
                continue;
            }

            var said = places.Said(place.Station, place.Blade);
            foreach (var misused in place.Misused)
            {
                yield return (said, misused.Words);
            }

            if (place.Outvoted is { } outvoted)
            {
                yield return (said, outvoted.Words);
            }

            if (place.StepTaken is { } step)
            {
                yield return (said, step.Words(place.System));
            }

            // In differences of one gauge its scale drops out.
            if (check is Check.LimitOnQuantity && place.Scale?.Words(verdict, place.System) is { } scale)
            {
                yield return (said, scale);
            }

            if (place.Counted is { } counted)
            {
                yield return (said, counted.Words(place.System));
            }

            if (place.Gauges is { } gauges && IsWorthTelling(gauges, verdict))
            {
                yield return (said, gauges.Words(place.System));
            }
        }
    }

    /// <summary>What was written down and what is judged of it, told once for all places that were corrected alike.</summary>
    private static IEnumerable<string> Corrected(UnitFrame unit, MeasuredQuantity quantity)
    {
        var places = UnitPlaces.Of(unit, quantity);
        return (unit.Of(quantity)?.Left ?? [])
            .Where(place => place.State is not KnownState.Stale)
            .SelectMany(place =>
                place.Corrected.Select(corrected =>
                    (Said: places.Said(place.Station, place.Blade), Corrected: corrected, place.System)
                )
            )
            .GroupBy(each =>
                (string.Join(' ', each.Corrected.Gauges), each.Corrected.Correction, each.System)
            )
            .Select(alike =>
                ZeroCorrected.Words([.. alike.Select(each => (each.Said, each.Corrected))], alike.Key.System)
            );
    }

    private static bool IsWorthTelling(GaugeComparison gauges, Verdict verdict) =>
        !gauges.Error.Agrees || verdict is Verdict.NotMet;

    /// <summary>The quantities whose tries and readings a check rests on.</summary>
    public static IEnumerable<MeasuredQuantity> TriedIn(Check check) =>
        check switch
        {
            Check.ProceduralLimit procedural => [procedural.Quantity],
            Check.Contact contact => [contact.Quantity],
            Check.Freshness freshness => [freshness.Quantity],
            Check.Relation relation => [relation.Quantity, relation.Other],
            _ => QuantitiesOf(check),
        };

    private static IEnumerable<MeasuredQuantity> QuantitiesOf(Check check) =>
        check switch
        {
            Check.LimitOnQuantity limit => [limit.Quantity],
            Check.Presence presence => [presence.Quantity],
            Check.Spread spread => [spread.Quantity],
            Check.Parallelism parallelism => [parallelism.Quantity],
            Check.Relation relation => [relation.Quantity],
            Check.ReelForm => [MeasuredQuantity.ReelDiameter],
            Check.Twist => [MeasuredQuantity.FrontRollerOnPlate, MeasuredQuantity.RearRollerOnPlate],
            _ => [],
        };
}
