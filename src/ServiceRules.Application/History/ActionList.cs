using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Wear;

namespace ServiceRules.Application.History;

/// <summary>What needs somebody, soonest first; of one day the weightier first.</summary>
internal static class ActionList
{
    // Two seasons: far enough to order a reel, near enough to matter. Illustrative.
    private const int DaysAhead = 730;

    // What a gauge did longer ago stands among the gauges. Illustrative.
    private const int DaysBack = 60;

    public static ImmutableArray<HistoryAction> Of(HistoryTold told) =>
        [
            .. told
                .Units.SelectMany(unit => OfUnit(unit, told.Through))
                .Concat(told.Gauges.SelectMany(gauge => OfGauge(gauge, told.Through)))
                .Concat(told.GaugePairs.SelectMany(pair => OfPair(pair, told.Through)))
                .OrderBy(action => action.Due ?? DateOnly.MinValue)
                .ThenBy(action => action.Kind)
                .ThenBy(action => action.Unit?.Machine.Text, StringComparer.Ordinal)
                .ThenBy(action => action.Unit?.Unit.Text, StringComparer.Ordinal),
        ];

    private static IEnumerable<HistoryAction> OfUnit(UnitOutlook unit, DateOnly through)
    {
        foreach (var size in unit.Sizes)
        {
            if (OfSize(unit, size, through) is { } action)
            {
                yield return action;
            }
        }

        if (unit.Relief is { DiameterLeft: var left } && left <= Length.Zero)
        {
            yield return new(ActionKind.Relief, Unit: unit);
        }

        if (unit.Grind is { DueIn: not null, On: { } on } && IsNear(on, through))
        {
            yield return new(ActionKind.Grind, on > through ? on : null, Unit: unit);
        }

        if (unit.TakeUp is { IsSignal: true })
        {
            yield return new(ActionKind.TakenUpFast, Unit: unit);
        }

        if (unit.TakeUp is { OddOne: not null })
        {
            yield return new(ActionKind.OddOneOut, Unit: unit);
        }

        foreach (
            var step in unit.Steps.Where(step => step.Answer is StepAnswer.MovesLess or StepAnswer.MovesMore)
        )
        {
            yield return new(ActionKind.Step, Unit: unit, Step: step);
        }

        if (unit.Shield is { Follows: false })
        {
            yield return new(ActionKind.Shield, Unit: unit);
        }
    }

    private static HistoryAction? OfSize(UnitOutlook unit, SizeOutlook size, DateOnly through) =>
        size.Remaining <= Length.Zero ? new(ActionKind.PastLimit, Unit: unit, Size: size)
        // The last reading may be inside and a poor one: the line knows better.
        : size.ByRobust is { Hours: WearForecast.Reached } ? new(ActionKind.Limit, Unit: unit, Size: size)
        : size is { Quantity: not MeasuredQuantity.LandWidth, GrindsLeft: 0 }
            ? new(ActionKind.LastGrind, Unit: unit, Size: size)
        : size.ByRobust is { Hours: WearForecast.Reaches, Days: { } days }
        && IsNear(days.Earliest ?? days.On, through)
            ? new(ActionKind.Limit, days.On > through ? days.On : null, days.Earliest, unit, size)
        : null;

    private static bool IsNear(DateOnly day, DateOnly through) =>
        day.DayNumber - through.DayNumber <= DaysAhead;

    private static IEnumerable<HistoryAction> OfGauge(GaugeOutlook gauge, DateOnly through)
    {
        var isRecent = gauge.Off.Any(check => through.DayNumber - check.Day.DayNumber <= DaysBack);
        if (isRecent || gauge.Drift is not null)
        {
            yield return new(ActionKind.Gauge, Gauge: gauge);
        }
    }

    private static IEnumerable<HistoryAction> OfPair(GaugePairOutlook pair, DateOnly through)
    {
        if (pair.Disagreeing > 0 && through.DayNumber - pair.LastOn.DayNumber <= DaysBack)
        {
            yield return new(ActionKind.GaugesPart, Pair: pair);
        }
    }
}
