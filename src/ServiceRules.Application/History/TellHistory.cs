using System.Collections.Immutable;
using ServiceRules.Application.Filed;
using ServiceRules.Application.Library;
using ServiceRules.Domain;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Trade;
using ServiceRules.Engine;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.History;

/// <summary>What many records tell together: wear, sharpness, adjusters, gauges, and what the shop leaves.</summary>
public sealed class TellHistory(RecordGathering files, RuleBook book, SiteRegisters site)
{
    /// <summary>Reads records and tells; null when there is none.</summary>
    /// <param name="paths">Files and folders with records.</param>
    /// <param name="only">One unit only; null: all.</param>
    /// <param name="grindEvery">The grinding interval of the shop; null: none stated.</param>
    /// <param name="read">The files behind the answer, or behind its absence.</param>
    public HistoryTold? Tell(
        IEnumerable<string> paths,
        Id<UnitWork>? only,
        RunningTime? grindEvery,
        out FilesRead read
    )
    {
        FactsReading reading = new(book, site, new RuleEngine());
        var gathered = files.Gather(paths, reading.Of);
        read = gathered.Files;
        if (gathered.Kept.IsEmpty)
        {
            return null;
        }

        var byUnit = ByUnit(gathered.Kept.SelectMany(facts => facts.Visits));
        var units = new UnitReckoning(grindEvery).Of(byUnit);
        var told = new HistoryTold
        {
            From = gathered.Kept.Min(facts => facts.Day),
            Through = gathered.Kept.Max(facts => facts.Day),
            Actions = [],
            Units = [.. units.Where(unit => only is null || unit.Unit == only)],
            Offsets = Offsets(gathered.Kept),
            Gauges = GaugeReckoning.ZeroChecks(gathered.Kept.SelectMany(facts => facts.Gauges)),
            GaugePairs = GaugeReckoning.Pairs(
                gathered
                    .Kept.SelectMany(facts => facts.Pairs)
                    .Concat(byUnit.SelectMany(visits => GaugePairs.Between(visits)))
            ),
            Processes = ProcessReckoning.Of(gathered.Kept.SelectMany(facts => facts.Left)),
            Known = [.. units.Select(unit => unit.Unit).Distinct()],
            Files = gathered.Files,
        };
        var whole = only is null
            ? told
            : told with
            {
                Offsets = [],
                Gauges = [],
                GaugePairs = [],
                Processes = [],
            };
        return whole with { Actions = ActionList.Of(whole) };
    }

    /// <summary>The visits of each unit, in order.</summary>
    internal static ImmutableArray<ImmutableArray<UnitVisit>> ByUnit(IEnumerable<UnitVisit> visits) =>
        [
            .. visits
                .GroupBy(visit => (visit.Site, visit.Unit))
                .Select(unit => Settled([.. unit.Order(VisitOrder.Instance)])),
        ];

    /// <summary>On the bench a record names one machine, whatever the units on it came off.</summary>
    private static ImmutableArray<UnitVisit> Settled(ImmutableArray<UnitVisit> visits)
    {
        var home = visits.FirstOrDefault(visit => visit.Place == WorkPlace.OnMachine)?.Machine.Id;
        var settled = ImmutableArray.CreateBuilder<UnitVisit>(visits.Length);
        foreach (var visit in visits)
        {
            home = visit.Place == WorkPlace.OnMachine ? visit.Machine.Id : home;
            settled.Add(visit with { IsAway = home is not null && visit.Machine.Id != home });
        }

        return settled.MoveToImmutable();
    }

    private static ImmutableArray<OffsetOutlook> Offsets(IEnumerable<RecordFacts> facts) =>
        [
            .. facts
                .Select(fact => fact.Offset)
                .OfType<OffsetSeen>()
                .GroupBy(seen => (seen.Site, seen.Machine, seen.Area, seen.Season))
                .OrderBy(group => group.Key.Machine)
                .ThenBy(group => group.Key.Area, StringComparer.Ordinal)
                .ThenBy(group => group.Key.Season)
                .Select(group =>
                {
                    // What proves nothing in a verdict teaches nothing either.
                    var read = group.Where(seen => !seen.Pair.IsBelowPrism).ToList();
                    return new OffsetOutlook(
                        group.Key.Machine,
                        group.Key.Area,
                        group.Key.Season,
                        read.Count,
                        EffectiveHeightOffset.Learn(read.Select(seen => seen.Pair)),
                        group.Count() - read.Count,
                        group.Last().Pair.Bench,
                        group.Last().System
                    );
                }),
        ];
}
