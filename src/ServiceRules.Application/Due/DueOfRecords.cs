using System.Collections.Immutable;
using System.Text.Json;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.History;
using ServiceRules.Application.Library;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Due;

/// <summary>
/// What the records of a site say falls due: the calibrations that they state of gauges, and what the history of units comes to.
/// </summary>
/// <param name="site">Its registers.</param>
/// <param name="book">The rules in force, with the limits of units.</param>
public sealed class DueOfRecords(SiteRegisters site, RuleBook book)
{
    private readonly Dictionary<Id<Instrument>, (Calibration Stated, ServiceRecord By)> gauges = [];
    private readonly List<UnitVisit> visits = [];
    private DateOnly first = DateOnly.MaxValue;
    private DateOnly last = DateOnly.MinValue;

    /// <summary>Takes from a record what counts, so that the record itself need not be kept. Each record once, in any order.</summary>
    public void Add(ServiceRecord record)
    {
        ArgumentNullException.ThrowIfNull(record);
        foreach (var gauge in record.Instruments)
        {
            if (gauge.Calibration is { } stated && IsLater(stated, record, gauge.Id))
            {
                gauges[gauge.Id] = (stated, record);
            }
        }

        visits.AddRange(
            FactsReading.VisitsOf(FrameBuilder.Build(record, ContextFreezer.Freeze(site, record), book))
        );
        first = record.Date < first ? record.Date : first;
        last = record.Date > last ? record.Date : last;
    }

    public ImmutableArray<DueThing> Told() =>
        [
            .. gauges
                .Where(gauge => IsKept(gauge.Key))
                .OrderBy(gauge => gauge.Key)
                .Select(gauge => new DueThing(
                    site.Name,
                    DueKind.Calibration,
                    gauge.Key.Text,
                    gauge.Value.Stated.HoldsUntil,
                    DueSource.Record
                )
                {
                    Record = gauge.Value.By.Id.Text,
                }),
            .. OfUnits(),
        ];

    // Of two of one day the one counts that was stated later, and of one job that with the greater name: the order of reading must not.
    private bool IsLater(Calibration stated, ServiceRecord record, Id<Instrument> gauge) =>
        !gauges.TryGetValue(gauge, out var known)
        || (stated.Date, record.Date, record.Id).CompareTo((known.Stated.Date, known.By.Date, known.By.Id))
            > 0;

    // A gauge or a machine that a register does not have any more needs nobody.
    private bool IsKept(Id<Instrument> gauge) =>
        site.Instruments.IsEmpty || site.Instruments.Any(known => known.Id == gauge);

    private bool IsKept(UnitOutlook unit) =>
        site.Machines.IsEmpty || site.Machines.Any(machine => machine.Id == unit.Machine);

    private IEnumerable<DueThing> OfUnits()
    {
        if (visits.Count == 0)
        {
            return [];
        }

        var units = new UnitReckoning(null).Of(TellHistory.ByUnit(visits));
        return ActionList
            .Of(
                new HistoryTold
                {
                    From = first,
                    Through = last,
                    Actions = [],
                    Units = units,
                    Offsets = [],
                    Gauges = [],
                    GaugePairs = [],
                    Processes = [],
                    Known = [],
                    Files = new([], 0, 0, 0),
                }
            )
            .Where(action => action.Unit is { } unit && IsKept(unit))
            .Select(Of)
            .OfType<DueThing>();
    }

    private DueThing? Of(HistoryAction action) =>
        action switch
        {
            { Kind: ActionKind.PastLimit or ActionKind.Limit, Unit: { } unit, Size: { } size } => Thing(
                DueKind.Wear,
                unit,
                action.Due ?? size.Last.Day
            ) with
            {
                About = JsonNamingPolicy.KebabCaseLower.ConvertName(size.Quantity.ToString()),
                Part = size.Part,
                Record = size.Last.Record.Text,
                IsForecast = action.Due is not null,
                IsReached = action.Due is null,
            },
            { Kind: ActionKind.Relief, Unit: { Relief: { } relief } unit } => Thing(
                DueKind.Relief,
                unit,
                relief.ReadOn
            ) with
            {
                Part = unit.Reel,
                IsReached = true,
            },
            _ => null,
        };

    private DueThing Thing(DueKind kind, UnitOutlook unit, DateOnly due) =>
        new(site.Name, kind, unit.Unit.Text, due, DueSource.History) { Machine = unit.Machine.Text };
}
