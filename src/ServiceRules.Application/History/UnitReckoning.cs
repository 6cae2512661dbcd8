using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Wear;

namespace ServiceRules.Application.History;

/// <summary>Reckons everything of each unit.</summary>
/// <param name="grindEvery">The grinding interval stated; null: none.</param>
internal sealed class UnitReckoning(RunningTime? grindEvery)
{
    private const int DaysInAWeek = 7;

    /// <param name="byUnit">The visits of each unit, in order.</param>
    public ImmutableArray<UnitOutlook> Of(ImmutableArray<ImmutableArray<UnitVisit>> byUnit)
    {
        var reels = PartLife.Of(byUnit.Select(one => (IReadOnlyList<UnitVisit>)one), PartKind.Reel);
        var bedknives = PartLife.Of(byUnit.Select(one => (IReadOnlyList<UnitVisit>)one), PartKind.Bedknife);
        var groundOff = reels
            .Select(life => (Life: life, Quantity: MeasuredQuantity.ReelDiameter))
            .Concat(bedknives.Select(life => (Life: life, Quantity: MeasuredQuantity.BedknifeLip)))
            .SelectMany(one =>
                SizeSeries
                    .Of(one.Life, one.Quantity)
                    .GroundOff.Select(loss => (Key: (one.Life.Last.Sheet.Id.Text, one.Quantity), Loss: loss))
            )
            .ToLookup(one => one.Key, one => one.Loss);
        SizeReckoning sizes = new(groundOff);
        ImmutableArray<UnitOutlook> units =
        [
            .. byUnit
                .Select(visits => One(visits, reels, bedknives, sizes))
                .OrderBy(unit => unit.Site, StringComparer.Ordinal)
                .ThenBy(unit => unit.Machine)
                .ThenBy(unit => unit.Position)
                .ThenBy(unit => unit.Unit),
        ];
        return [.. units.Select(unit => BesideNeighbours(unit, units))];
    }

    private UnitOutlook One(
        ImmutableArray<UnitVisit> visits,
        ImmutableArray<PartLife> reels,
        ImmutableArray<PartLife> bedknives,
        SizeReckoning sizes
    )
    {
        var last = visits[^1];
        // On the bench the record names no machine that the unit belongs to.
        var home = visits.LastOrDefault(visit => visit.Place == WorkPlace.OnMachine) ?? last;
        var perWeek = PerWeek(visits);
        var reel = Fitted(reels, last);
        var bedknife = Fitted(bedknives, last);
        var diameter = sizes.Of(reel, MeasuredQuantity.ReelDiameter, perWeek);
        var land = sizes.Of(reel, MeasuredQuantity.LandWidth, perWeek);
        var lip = sizes.Of(bedknife, MeasuredQuantity.BedknifeLip, perWeek);
        ImmutableArray<SizeOutlook> known = [.. new[] { diameter, lip, land }.OfType<SizeOutlook>()];
        return new()
        {
            Site = last.Site,
            Unit = last.Unit,
            Machine = home.Machine.Id,
            Area = home.Machine.Area,
            Position = home.Position,
            Sheet = last.Sheet.Id.Text,
            Reel = reel.Name,
            Bedknife = bedknife.Name,
            Jobs = visits.Length,
            First = visits[0].Day,
            Last = last.Day,
            PerWeek = perWeek,
            Sizes = known,
            Earlier =
            [
                .. Before(reels, reel, last, PartKind.Reel),
                .. Before(bedknives, bedknife, last, PartKind.Bedknife),
            ],
            Relief = ReliefReckoning.Of(reel, diameter, land),
            Grind = Grind(visits, known, perWeek),
            TakeUp = TakeUpReckoning.Of(visits),
            Steps = StepReckoning.Of(visits),
            Shield = ShieldReckoning.Of(visits),
        };
    }

    /// <summary>The part that sits in a unit as its last job left it.</summary>
    private static PartLife Fitted(ImmutableArray<PartLife> lives, UnitVisit last) =>
        lives.Last(life => life.Visits.Any(visit => visit.Left && ReferenceEquals(visit.Unit, last)));

    private static IEnumerable<EarlierPart> Before(
        ImmutableArray<PartLife> lives,
        PartLife now,
        UnitVisit unit,
        PartKind kind
    ) =>
        lives
            .Where(life => life != now && life.Site == unit.Site)
            .Where(life => life.Visits.Any(visit => visit.Unit.Unit == unit.Unit))
            .Select(life =>
            {
                var size = SizeSeries
                    .Of(
                        life,
                        kind == PartKind.Reel ? MeasuredQuantity.ReelDiameter : MeasuredQuantity.BedknifeLip
                    )
                    .Points.LastOrDefault();
                return new EarlierPart(
                    life.Name,
                    kind,
                    life.Visits.Where(visit => visit.Unit.Unit == unit.Unit).Max(visit => visit.Unit.Day),
                    size?.Value,
                    size?.System ?? UnitSystem.Metric
                );
            })
            .OrderBy(part => part.Until);

    private static RunningTime? PerWeek(ImmutableArray<UnitVisit> visits)
    {
        var joined = Joined(visits);
        return joined.Count < 2
            ? null
            : WeeklyUse.Of(joined[0].Day, joined[0].Hours!.Value, joined[^1].Day, joined[^1].Hours!.Value);
    }

    /// <summary>The last visits whose hours are of one meter, going forward.</summary>
    private static List<UnitVisit> Joined(ImmutableArray<UnitVisit> visits)
    {
        List<UnitVisit> joined = [];
        foreach (var visit in visits.Where(visit => visit.Hours is not null))
        {
            if (
                joined.Count > 0
                && (joined[^1].Machine.Id != visit.Machine.Id || joined[^1].Hours > visit.Hours)
            )
            {
                joined.Clear();
            }

            joined.Add(visit);
        }

        return joined;
    }

    private GrindOutlook? Grind(
        ImmutableArray<UnitVisit> visits,
        ImmutableArray<SizeOutlook> sizes,
        RunningTime? perWeek
    )
    {
        var joined = Joined(visits);
        if (joined.Count == 0)
        {
            return null;
        }

        var ground = joined.LastOrDefault(visit => visit.IsSharpened);
        var run = joined[^1].Hours!.Value.Since((ground ?? joined[0]).Hours!.Value);
        // Without a grind in the records nobody knows how long ago it was: at least so long.
        var toLimit = sizes
            .Select(size => ToLimit(size, joined[^1]))
            .OfType<RunningTime>()
            .Order()
            .Select(left => (RunningTime?)left)
            .FirstOrDefault();
        var dueIn = grindEvery is { } every ? GrindDue.In(every, run, toLimit) : (RunningTime?)null;
        return new(ground?.Day, run, grindEvery, dueIn, Day(joined[^1].Day, dueIn, perWeek));
    }

    /// <summary>From the last visit, however long ago the size was read; past the limit nothing is left.</summary>
    private static RunningTime? ToLimit(SizeOutlook size, UnitVisit last) =>
        size switch
        {
            { ByRobust.Hours: WearForecast.Reached } => RunningTime.Zero,
            { Robust: { } line, ByRobust.Hours: WearForecast.Reaches { Left: var left } } => left
                - last.Hours!.Value.Since(line.Last)
                is var now
            && now > RunningTime.Zero
                ? now
                : RunningTime.Zero,
            _ => null,
        };

    private static DateOnly? Day(DateOnly from, RunningTime? left, RunningTime? perWeek)
    {
        if (left is not { } hours || perWeek is not { } weekly)
        {
            return null;
        }

        var days = decimal.Floor(hours.Hours / weekly.Hours * DaysInAWeek);
        return days <= 0 ? from
            : days < DateOnly.MaxValue.DayNumber - from.DayNumber ? from.AddDays((int)days)
            : null;
    }

    private static UnitOutlook BesideNeighbours(UnitOutlook unit, ImmutableArray<UnitOutlook> all) =>
        unit.TakeUp is not { } own
            ? unit
            : unit with
            {
                TakeUp = own with
                {
                    OddOne = TakeUpReckoning.OddOne(
                        own,
                        all.Where(other =>
                                other.Site == unit.Site
                                && other.Machine == unit.Machine
                                && other.Unit != unit.Unit
                            )
                            .Select(other => other.TakeUp)
                            .OfType<TakeUpOutlook>()
                    ),
                },
            };
}
