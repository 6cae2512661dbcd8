using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Checking;

/// <summary>Whether one check asks at least what another does.</summary>
internal static class CheckTightness
{
    public static bool IsAtLeast(Check check, Check below) =>
        (check, below) switch
        {
            (Check.LimitOnQuantity a, Check.LimitOnQuantity b) => a.Quantity == b.Quantity
                && a.Against == b.Against
                && (a.Where == b.Where || a.Where is CheckedPlaces.StationsAndEnds),
            (Check.Presence a, Check.Presence b) => a.Quantity == b.Quantity
                && a.Phase == b.Phase
                && (a.Places == b.Places || a.Places is RequiredPlaces.BothStations),
            (Check.Relation a, Check.Relation b) => a.Quantity == b.Quantity
                && a.How == b.How
                && a.Other == b.Other
                && IsNoWider(a.Allowance, b.Allowance),
            (Check.Clip a, Check.Clip b) => a.Ratio <= b.Ratio,
            (Check.OrderOfWork a, Check.OrderOfWork b) => Keeps(a.Order, b.Order),
            (Check.OrderOfEvents a, Check.OrderOfEvents b) => Keeps(a.Order, b.Order),
            (Check.RequiredEvent a, Check.RequiredEvent b) => a.Per == b.Per
                && a.When == b.When
                && (a.Needs is null || a.Needs == b.Needs)
                && AsksNoLess(a.By, b.By)
                && !a.Events.Except(b.Events).Any(),
            (Check.RecordPart a, Check.RecordPart b) => a.Part == b.Part && AsksNoLess(a.By, b.By),
            _ => check == below,
        };

    private static bool AsksNoLess(PersonAsked? asked, PersonAsked? below) => below is null || asked >= below;

    private static bool IsNoWider(DualPrint allowance, DualPrint below) =>
        allowance.In(UnitSystem.Metric) <= below.In(UnitSystem.Metric)
        && allowance.In(UnitSystem.Inch) <= below.In(UnitSystem.Inch);

    /// <summary>A longer order that keeps the one below asks more.</summary>
    private static bool Keeps<T>(ImmutableArray<T> order, ImmutableArray<T> below)
    {
        var places = below.Select(one => order.IndexOf(one)).ToList();
        return places.TrueForAll(place => place >= 0)
            && places.Zip(places.Skip(1)).All(pair => pair.First < pair.Second);
    }
}
