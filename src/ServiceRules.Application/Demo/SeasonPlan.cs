using ServiceRules.Domain.Records;

namespace ServiceRules.Application.Demo;

/// <summary>
/// What the shop plans for one season: a full service of every machine in March, then height checks, touch-ups and
/// daily checks in turn, the grinder in July, and what comes up in between.
/// </summary>
internal static class SeasonPlan
{
    private const int Weeks = 31;

    private static readonly string[] InSpring =
    [
        "M-05",
        "M-11",
        "M-01",
        "M-02",
        "M-03",
        "M-04",
        "M-10",
        "M-06",
        "M-07",
        "M-08",
        "M-09",
    ];

    public static IEnumerable<PlannedJob> Of(int year)
    {
        var start = MondayFrom(new(year, 3, 1));
        return Spring(start)
            .Concat(Enumerable.Range(0, Weeks).SelectMany(week => Week(start.AddDays(21 + (7 * week)), week)))
            .Concat(Grinds(start.AddDays(21 + (7 * 14)), year))
            .Concat(Championship(start.AddDays(21 + (7 * 13)), year))
            .Concat(Once(start, year));
    }

    private static IEnumerable<PlannedJob> Spring(DateOnly start) =>
        InSpring.Select(
            (id, index) =>
            {
                var machine = Fleet.Machine(id);
                return Plan(
                    start.AddDays(index / 5 * 7 + (index % 5)),
                    7,
                    15,
                    machine,
                    ServiceTask.FullService
                ) with
                {
                    Crew = machine.Units > 3 ? 2 : 1,
                };
            }
        );

    private static IEnumerable<PlannedJob> Week(DateOnly monday, int week)
    {
        foreach (var index in new[] { week * 2 % 11, ((week * 2) + 5) % 11 })
        {
            var day = monday.AddDays(index == week * 2 % 11 ? 0 : 3);
            yield return Plan(day, 6, 10, Fleet.Machines[index], ServiceTask.DailyCheck);
        }

        foreach (var job in HeightChecks(monday, week).Concat(TouchUps(monday, week)))
        {
            yield return job;
        }
    }

    private static IEnumerable<PlannedJob> HeightChecks(DateOnly monday, int week)
    {
        var tuesday = monday.AddDays(1);
        string[] fine = week % 2 == 0 ? ["M-01", "M-02", "M-05"] : ["M-03", "M-04", "M-11"];
        string[] rest = (week % 3) switch
        {
            0 => ["M-06", "M-09"],
            1 => ["M-07", "M-10"],
            _ => ["M-08"],
        };
        return fine.Select(id => Plan(tuesday, 6, 40, Fleet.Machine(id), ServiceTask.HeightCheck))
            .Concat(
                rest.Select(id => Plan(monday.AddDays(3), 6, 50, Fleet.Machine(id), ServiceTask.HeightCheck))
            );
    }

    private static IEnumerable<PlannedJob> TouchUps(DateOnly monday, int week) =>
        from item in Fleet.Machines.Select((machine, index) => (machine, index))
        let every = item.machine.Kind == UnitKind.Large ? 8 : 6
        where week % every == item.index % every
        select Plan(
            monday.AddDays(item.machine.Kind == UnitKind.Large ? 2 : 4),
            7,
            30,
            item.machine,
            ServiceTask.TouchUp
        ) with
        {
            Complaint = week % 4 == 1 ? Complaint(item.machine) : null,
        };

    private static string Complaint(FleetMachine machine) =>
        machine.Kind switch
        {
            _ when machine.Kind == UnitKind.Small => "paper nips on the outside, pale tips behind it",
            _ when machine.Kind == UnitKind.Large => "stragglers in a strip left of centre",
            _ => "ragged in the morning, worse uphill",
        };

    private static IEnumerable<PlannedJob> Grinds(DateOnly monday, int year)
    {
        string[] turns =
            year % 2 == 0
                ? ["M-01", "M-04", "M-06", "M-08", "M-09"]
                : ["M-02", "M-03", "M-04", "M-07", "M-10"];
        return turns.Select(
            (id, index) =>
                Plan(monday.AddDays(7 * index), 8, 0, Fleet.Machine(id), ServiceTask.Grind) with
                {
                    Place = WorkPlace.OnBench,
                    // Of one grind a year nobody wrote down how it went on the grass.
                    IsFollowedUp = index != 3,
                    Complaint = (id, year) switch
                    {
                        ("M-04", 2026) => "ran over a drain cover, nicks in all three",
                        ("M-09", 2026) => "stone in unit 3, deep nicks",
                        _ => null,
                    },
                }
        );
    }

    /// <summary>The greens lowered for the club championship, and put back the week after.</summary>
    private static IEnumerable<PlannedJob> Championship(DateOnly monday, int year)
    {
        foreach (var id in new[] { "M-01", "M-02" })
        {
            var machine = Fleet.Machine(id);
            yield return Plan(monday.AddDays(4), 13, 0, machine, ServiceTask.HeightChange) with
            {
                Requested = year % 2 == 0 ? 3.5m : 3.6m,
            };
            yield return Plan(monday.AddDays(7), 6, 0, machine, ServiceTask.HeightChange);
        }
    }

    private static IEnumerable<PlannedJob> Once(DateOnly start, int year)
    {
        var wet = year % 2 == 0 ? 3 : 0;
        yield return Plan(
            start.AddDays(58 + wet),
            10,
            20,
            Fleet.Machine("M-06"),
            ServiceTask.ClearBlockage
        ) with
        {
            Complaint = "unit 2 stopped, branch in the reel",
        };
        yield return Plan(
            start.AddDays(114 + wet),
            11,
            5,
            Fleet.Machine("M-09"),
            ServiceTask.ClearBlockage
        ) with
        {
            Technician = "tech-04",
            Complaint = "unit 1 stopped on the outfield",
        };
        yield return Plan(
            start.AddDays(184 + wet),
            9,
            40,
            Fleet.Machine("M-08"),
            ServiceTask.ClearBlockage
        ) with
        {
            Complaint = "unit 4 stopped, something in the reel",
        };
        if (year == 2025)
        {
            foreach (var job in BowlsWeek(new(2025, 6, 9)).Append(Midnight()))
            {
                yield return job;
            }
        }
        else
        {
            yield return TwelveOnTheBench();
            yield return ClocksPutBack();
            foreach (var job in OnTheRunningReel())
            {
                yield return job;
            }
        }
    }

    /// <summary>Both bowling greens read every other day in the week of the county match, with one gauge.</summary>
    private static IEnumerable<PlannedJob> BowlsWeek(DateOnly monday) =>
        from day in new[] { 0, 2, 4 }
        from id in new[] { "M-05", "M-11" }
        select Plan(monday.AddDays(day), 9, 15, Fleet.Machine(id), ServiceTask.HeightCheck) with
        {
            Technician = "tech-03",
        };

    private static PlannedJob Midnight() =>
        Plan(new(2025, 8, 14), 23, 20, Fleet.Machine("M-01"), ServiceTask.TouchUp) with
        {
            Technician = "tech-01",
            Complaint = "championship tomorrow, white tips on 4 and 7",
            Oddity = OddityKind.AcrossMidnight,
        };

    private static PlannedJob ClocksPutBack() =>
        Plan(new(2026, 10, 25), 1, 25, Fleet.Machine("M-02"), ServiceTask.TouchUp) with
        {
            Technician = "tech-02",
            Complaint = "back late from the floodlit final, wanted at six",
            Oddity = OddityKind.ClocksPutBack,
        };

    /// <summary>Before winter: two units lapped on their machines, and one ground at the grinder.</summary>
    private static IEnumerable<PlannedJob> OnTheRunningReel()
    {
        foreach (var (id, day) in new[] { ("M-01", 27), ("M-02", 28) })
        {
            yield return Plan(new(2026, 10, day), 9, 0, Fleet.Machine(id), ServiceTask.Lap) with
            {
                OnlyPosition = 2,
                Complaint = "paper only folds in the middle",
                Oddity = id == "M-01" ? OddityKind.LappedWithHandsOut : null,
            };
        }

        yield return Plan(new(2026, 10, 29), 8, 0, Fleet.Machine("M-03"), ServiceTask.Grind) with
        {
            Place = WorkPlace.OnBench,
            IsAtGrinder = true,
            OnlyPosition = 3,
            IsFollowedUp = true,
            Oddity = OddityKind.GroundUnderItsOwnLock,
        };
    }

    private static PlannedJob TwelveOnTheBench() =>
        Plan(new(2026, 4, 18), 7, 0, Fleet.Machine("M-01"), ServiceTask.HeightCheck) with
        {
            Place = WorkPlace.OnBench,
            Others = [Fleet.Machine("M-02"), Fleet.Machine("M-03"), Fleet.Machine("M-04")],
            Technician = "tech-01",
            Oddity = OddityKind.TwelveOnTheBench,
        };

    private static PlannedJob Plan(
        DateOnly day,
        int hour,
        int minute,
        FleetMachine machine,
        ServiceTask task
    ) =>
        new()
        {
            Day = day,
            NotBefore = new(hour, minute),
            Machine = machine,
            Task = task,
        };

    private static DateOnly MondayFrom(DateOnly date) =>
        date.AddDays(((int)DayOfWeek.Monday - (int)date.DayOfWeek + 7) % 7);
}
