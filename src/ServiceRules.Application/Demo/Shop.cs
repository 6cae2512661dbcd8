using System.Collections.Immutable;
using ServiceRules.Application.Library;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Application.Demo;

/// <summary>The shop over the seasons: who is free when, and how the units really are.</summary>
internal sealed class Shop
{
    private readonly Dictionary<string, Moment> freeFrom = [];
    private readonly Dictionary<string, decimal> hours = [];
    private readonly Dictionary<string, DateOnly> seenOn = [];
    private readonly ImmutableArray<UnitCondition> units;
    private readonly int seed;
    private readonly SiteRegisters site;

    public Shop(int seed, SiteRegisters site)
    {
        this.seed = seed;
        this.site = site;
        var chance = Chance.For(seed, "units");
        units =
        [
            .. Fleet.Machines.SelectMany(machine =>
                Enumerable
                    .Range(1, machine.Units)
                    .Select(position => new UnitCondition(machine, position, chance))
            ),
        ];
        foreach (var machine in Fleet.Machines)
        {
            hours[machine.Id] = machine.FirstHours;
        }
    }

    public DemoJob Do(PlannedJob plan, string id)
    {
        var chance = Chance.For(seed, id);
        foreach (var machine in plan.Others.Append(plan.Machine))
        {
            Mow(machine, plan.Day, chance);
        }

        var crew = CrewOf(plan, chance);
        var start = StartOf(plan, crew, chance);
        var visit = new Visit
        {
            Plan = plan,
            Clock = new(site.Zone, start),
            Chance = chance,
            Instruments = new(plan.Day, chance, plan.Fault),
            Crew = crew,
            TargetHeight = plan.Requested ?? Target(plan),
        };
        var record = JobWriter.Write(id, visit, UnitsOf(plan), hours[plan.Machine.Id], site);
        foreach (var busy in crew.Append(plan.Machine.Id).Concat(plan.Others.Select(other => other.Id)))
        {
            freeFrom[busy] = visit.Clock.Moment;
        }

        return new()
        {
            Record = record,
            Fault = plan.Fault is null ? null : FaultStory.Of(plan, record),
            LeaveAlone = plan.Oddity is { } oddity ? Oddity.Told(oddity) : null,
        };
    }

    private void Mow(FleetMachine machine, DateOnly day, Chance chance)
    {
        // Over winter a machine stands; the season before its first job there is nothing to count.
        var isFirst = !seenOn.TryGetValue(machine.Id, out var before) || before.Year != day.Year;
        var weeks = isFirst ? 0m : (day.DayNumber - before.DayNumber) / 7m;
        var mown = decimal.Round(weeks * machine.HoursPerWeek * chance.Between(0.85m, 1.15m) * 2) / 2;
        hours[machine.Id] += mown;
        seenOn[machine.Id] = day;
        foreach (var unit in units.Where(unit => unit.Machine == machine))
        {
            if (unit.HeightLeft == 0m)
            {
                unit.HeightLeft = TargetOn(day, machine.Area) + chance.Between(0.2m, 0.6m);
                unit.HeightRight = unit.HeightLeft + chance.Noise(0.08m);
            }

            unit.Mow(mown, chance);
        }
    }

    private List<UnitCondition> UnitsOf(PlannedJob plan) =>
        [
            .. units.Where(unit =>
                plan.OnlyPosition is { } only
                    ? unit.Machine == plan.Machine && unit.Position == only
                    : unit.Machine == plan.Machine || plan.Others.Contains(unit.Machine)
            ),
        ];

    private ImmutableArray<string> CrewOf(PlannedJob plan, Chance chance)
    {
        var inDate = plan
            .Machine.Technicians.Where(person => IsTrained(person, plan.Day))
            .OrderBy(person => freeFrom.GetValueOrDefault(person) > StartOfDay(plan) ? 1 : 0)
            .ToList();
        // Whoever usually does it is not always there.
        var isAway = inDate.Count > 1 && chance.OneIn(4);
        var first = plan.Technician ?? inDate[isAway ? 1 : 0];
        return
        [
            first,
            .. inDate
                .Where(person => !string.Equals(person, first, StringComparison.Ordinal))
                .Take(plan.Crew - 1),
        ];
    }

    private Moment StartOfDay(PlannedJob plan) => JobClock.MomentOf(site.Zone, plan.Day, plan.NotBefore);

    private Moment StartOf(PlannedJob plan, ImmutableArray<string> crew, Chance chance)
    {
        var free = crew.Append(plan.Machine.Id)
            .Concat(plan.Others.Select(other => other.Id))
            .Select(busy => freeFrom.GetValueOrDefault(busy));
        var start = free.Append(StartOfDay(plan)).Max();
        return start + TimeSpan.FromSeconds(chance.Between(60, 600));
    }

    private bool IsTrained(string person, DateOnly day) =>
        site.People.FirstOrDefault(known => known.Id == new Id<Participant>(person)) is not { } known
        || known.TrainedUntil is null
        || known.TrainedUntil >= day;

    private decimal Target(PlannedJob plan) => TargetOn(plan.Day, plan.Machine.Area);

    private decimal TargetOn(DateOnly day, string area) =>
        site
            .SettingOrders.Where(order => order.From <= day && !(order.Until < day))
            .SelectMany(order => order.Targets)
            .Where(target => target.Quantity is MeasuredQuantity.HeightOfCut)
            .First(target => string.Equals(target.Area, area, StringComparison.Ordinal))
            .Target.Value.Millimetres;
}
