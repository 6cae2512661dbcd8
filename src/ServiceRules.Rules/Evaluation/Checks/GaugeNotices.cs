using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Where two gauges read one place, a finding says whether it is the gauge or the unit: always when they disagree, and when
/// they agree only where something is out.
/// </summary>
internal static class GaugeNotices
{
    public static CheckOutcome Added(CheckOutcome outcome, Check check, UnitFrame? unit)
    {
        if (
            unit is null
            || QuantityOf(check) is not { } quantity
            || outcome.Verdict is Verdict.NotApplicable
            || unit.Of(quantity) is not { } known
        )
        {
            return outcome;
        }

        var places = UnitPlaces.Of(unit, quantity);
        var told = known
            .Left.Where(place => place.State is not KnownState.Stale)
            .Where(place => place.Gauges is { } gauges && IsWorthTelling(gauges, outcome.Verdict))
            .Select(place => place.Gauges!.Words(places.Said(place.Station, place.Blade), place.System));
        return outcome with { Notices = [.. outcome.Notices, .. told] };
    }

    private static bool IsWorthTelling(GaugeComparison gauges, Verdict verdict) =>
        !gauges.Error.Agrees || verdict is Verdict.NotMet;

    private static MeasuredQuantity? QuantityOf(Check check) =>
        check switch
        {
            Check.LimitOnQuantity limit => limit.Quantity,
            Check.Spread spread => spread.Quantity,
            Check.Parallelism parallelism => parallelism.Quantity,
            Check.Relation relation => relation.Quantity,
            _ => null,
        };
}
