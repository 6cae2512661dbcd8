using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Engine.Tests.SafeWork;

/// <summary>
/// A job done as it should be, of a random shape: one to four workers, one to six energy sources, own locks or a group
/// box, a test run or a run for lapping, a change of shift, outside people, a tag where no lock fits, pressure that comes
/// back, a plug as the only source, something plugged in during the job, a unit on the bench, a grinder that is switched off.
/// </summary>
internal sealed class SafeJob
{
    public const string Lead = "lead-1";
    public const string Operator = "op-1";
    public const string Inspector = "tech-9";
    public const string Machine = "M-1";
    public const string Added = "groomer";

    private static readonly string[] Known =
    [
        "engine_start",
        "hydraulic",
        "gravity",
        "battery_drive",
        "spring",
        "reel_rotation",
    ];

    private readonly Random random;
    private readonly TimelinePen pen;
    private readonly string[] workers;
    private readonly ImmutableArray<EnergySource> sources;
    private readonly bool usesBox;
    private readonly bool isShiftChange;
    private readonly bool isOnBench;
    private readonly bool isGrinder;
    private readonly bool hasPlug;
    private readonly bool addsSource;
    private readonly bool hasControls;
    private readonly bool laps;
    private readonly DateOnly day;

    private SafeJob(Random random)
    {
        this.random = random;
        bool clocksGoBack = random.Next(12) == 0;
        var start = clocksGoBack
            ? new DateTimeOffset(2025, 11, 2, 4, 0, 0, TimeSpan.Zero)
            : new DateTimeOffset(2025, 6, 3, 11, 0, 0, TimeSpan.Zero).AddMinutes(random.Next(900));
        pen = new(random, start);
        workers =
        [
            .. Enumerable
                .Range(
                    1,
                    random.Next(5) switch
                    {
                        0 or 1 => 1,
                        2 => 3,
                        3 => 4,
                        _ => 2,
                    }
                )
                .Select(n => $"tech-{n}"),
        ];
        isOnBench = random.Next(10) == 0;
        isGrinder = isOnBench && random.Next(2) == 0;
        hasPlug = !isOnBench && random.Next(8) == 0;
        addsSource = !isOnBench && random.Next(8) == 0;
        hasControls = random.Next(2) == 0;
        laps = random.Next(2) == 0;
        string[] known =
            isGrinder ? ["battery_drive", "gravity", "reel_rotation"]
            : isOnBench ? ["gravity", "reel_rotation"]
            : hasPlug ? ["mains_cord", "reel_rotation"]
            :
            [
                .. Known
                    .OrderBy(_ => random.Next())
                    .Take(random.Next(1, 7))
                    .Union(["engine_start"])
                    .TakeLast(6),
            ];
        sources = [.. known.Select(Source)];
        day = DateOnly.FromDateTime(start.AddHours(-4).DateTime);
        isShiftChange = workers.Length == 2 && random.Next(2) == 0;
        usesBox = workers.Length > 1 && !isShiftChange && !hasPlug && random.Next(2) == 0;
    }

    private bool IsGroup => workers.Length > 1 && !isShiftChange;

    private IEnumerable<string> Isolatable =>
        sources.Where(s => s.Isolator is not null).Select(s => s.Id.Text);

    /// <summary>The same job for the same seed.</summary>
    public static (ServiceRecord Record, AssessmentContext Context) From(int seed)
    {
        var random = new Random(seed);
        var job = new SafeJob(random);
        bool outside = job.workers.Length > 1 && random.Next(4) == 0;
        job.Write(outside);
        return (
            job.Record(),
            SafeSite.Of(
                job.sources,
                job.workers,
                outside,
                job.addsSource || job.sources.Any(s => s is { Isolator: not null, Lockable: false }),
                job.isOnBench ? WorkPlace.OnBench : WorkPlace.OnMachine,
                job.hasControls,
                job.laps
            )
        );
    }

    public static readonly Pressure Limit = Read("10 bar");

    public static Pressure Read(string pressure) =>
        Pressure.Parse(pressure).TryGet(out var read, out _) ? read : throw new ArgumentException(pressure);

    public static string LockOf(string person, string source) => $"L-{person}-{source}";

    private EnergySource Source(string id)
    {
        bool switched = id is "engine_start" or "hydraulic" or "battery_drive" or "mains_cord";
        bool stored = id is not ("engine_start" or "battery_drive" or "mains_cord");
        bool comesBack = id == "hydraulic" && random.Next(2) == 0;
        return new()
        {
            Id = new(id),
            Title = id.Replace('_', ' '),
            Isolator = switched ? $"{id}_disconnect" : null,
            Lockable = switched && id != "mains_cord" && (id != "hydraulic" || random.Next(4) > 0),
            Stored = stored,
            RecheckMinutes = comesBack ? 30 : null,
            RecheckLimit = comesBack && random.Next(2) == 0 ? Limit : null,
            Release = stored ? "as the procedure says" : null,
            Proof = "tried",
        };
    }

    private void Write(bool outside)
    {
        if (outside)
        {
            pen.Write(
                TimelineEventKind.ContractorProceduresExchanged,
                Lead,
                more: e => e with { Others = TimelinePen.People(workers[^1]) }
            );
        }

        if (IsGroup)
        {
            pen.Write(
                TimelineEventKind.PrimaryAssigned,
                Lead,
                more: e => e with { Others = TimelinePen.People(workers[0]), Count = workers.Length }
            );
        }

        if (IsGroup && outside)
        {
            pen.Write(
                TimelineEventKind.CoordinatorAssigned,
                Lead,
                more: e => e with { Others = TimelinePen.People(workers[0]), Crews = ["shop", "outside"] }
            );
        }

        Tell(TimelineEventKind.AffectedNotifiedBefore);
        pen.Write(TimelineEventKind.EnergyReviewed, workers[0]);
        LeaveTheSeat();
        Control(workers[0]);
        string last = workers[0];
        if (isShiftChange)
        {
            Work([workers[0]]);
            HandOver();
            last = workers[1];
            Work([last]);
        }
        else
        {
            Join();
            Work(workers);
            if (addsSource)
            {
                Add();
                Work(workers);
            }

            if (random.Next(3) == 0 && (!isOnBench || isGrinder))
            {
                Test();
                Work(workers);
            }
        }

        Release(last);
    }

    private void LeaveTheSeat()
    {
        if (hasControls)
        {
            pen.Write(TimelineEventKind.DriveDisengaged, workers[0]);
            pen.Write(TimelineEventKind.UnitsLowered, workers[0]);
            pen.Write(TimelineEventKind.ParkingBrakeSet, workers[0]);
        }

        pen.Write(TimelineEventKind.MachineShutDown, workers[0]);
        if (hasControls)
        {
            pen.Write(TimelineEventKind.KeyRemoved, workers[0]);
        }

        pen.Write(TimelineEventKind.SeenAtRest, workers[0]);
    }

    /// <summary>Something with energy of its own is fitted between two stretches of work, and controlled at once.</summary>
    private void Add()
    {
        pen.Write(TimelineEventKind.SourceAdded, workers[0], Added);
        ControlAdded();
    }

    private void ControlAdded()
    {
        pen.Write(TimelineEventKind.IsolatorOperated, workers[0], Added);
        foreach (string worker in workers)
        {
            pen.Write(
                TimelineEventKind.TagApplied,
                worker,
                Added,
                $"A-{worker}",
                e => e with { AtLockPoint = true, Position = IsolatorPosition.Off }
            );
        }

        pen.Write(TimelineEventKind.IsolationVerified, workers[0], Added);
    }

    private void Control(string by)
    {
        foreach (string id in Isolatable)
        {
            if (id == "mains_cord")
            {
                pen.Write(TimelineEventKind.PlugRemoved, by, id);
                continue;
            }

            pen.Write(
                TimelineEventKind.IsolatorOperated,
                by,
                id,
                more: e => e with { Isolator = $"{id}_disconnect" }
            );
        }

        foreach (var source in sources.Where(s => s.Isolator is not null))
        {
            Hang(by, source);
        }

        foreach (var source in sources.Where(s => s.Stored))
        {
            pen.Write(TimelineEventKind.StoredEnergyReleased, by, source.Id.Text);
        }

        pen.Write(TimelineEventKind.IsolationVerified, by, "all");
    }

    private void Hang(string by, EnergySource source)
    {
        string id = source.Id.Text;
        if (id == "mains_cord")
        {
            pen.Write(TimelineEventKind.PlugControlConfirmed, by, id);
        }
        else if (source.Lockable)
        {
            pen.Write(
                TimelineEventKind.LockApplied,
                by,
                id,
                usesBox ? $"J-{id}" : LockOf(by, id),
                e => e with { Position = IsolatorPosition.Off }
            );
        }
        else
        {
            pen.Write(
                TimelineEventKind.TagApplied,
                by,
                id,
                $"T-{by}",
                e =>
                    e with
                    {
                        AtLockPoint = true,
                        ExtraMeasure = "handle taken off",
                        Position = IsolatorPosition.Closed,
                    }
            );
        }
    }

    /// <summary>Everybody hangs an own device before going in.</summary>
    private void Join()
    {
        foreach (string worker in workers.Skip(usesBox ? 0 : 1))
        {
            if (usesBox)
            {
                pen.Write(TimelineEventKind.LockApplied, worker, "group_box", LockOf(worker, "box"));
                // A tag lies in no box: where no lock fits, everybody hangs one.
                foreach (var source in sources.Where(s => s is { Isolator: not null, Lockable: false }))
                {
                    if (worker != workers[0])
                    {
                        Hang(worker, source);
                    }
                }

                continue;
            }

            foreach (var source in sources.Where(s => s.Isolator is not null))
            {
                Hang(worker, source);
            }
        }
    }

    private void Work(string[] people)
    {
        foreach (string person in people)
        {
            pen.Write(TimelineEventKind.WorkStarted, person);
        }

        for (int look = random.Next(3); look > 0; look--)
        {
            pen.Wait(random.Next(3, 12));
            foreach (var source in sources.Where(s => s.Reaccumulates))
            {
                pen.Write(
                    TimelineEventKind.StoredEnergyRechecked,
                    people[0],
                    source.Id.Text,
                    more: e => e with { Pressure = source.RecheckLimit is null ? null : Read("2 bar") }
                );
            }
        }

        pen.Wait(random.Next(2, 10));
        foreach (string person in people.Reverse())
        {
            pen.Write(TimelineEventKind.WorkStopped, person);
        }
    }

    private void Test()
    {
        Look(workers[0]);
        if (laps)
        {
            pen.Write(
                TimelineEventKind.AlternativeMeasuresRecorded,
                workers[0],
                more: e => e with { Measures = [ProtectiveMeasure.LongHandledBrush] }
            );
        }

        TakeOff("test");
        pen.Write(TimelineEventKind.TestEnergised, workers[0]);
        if (laps)
        {
            pen.Write(
                TimelineEventKind.EnergisedTaskPerformed,
                workers[0],
                more: e => e with { Task = ServiceTask.Lap }
            );
        }

        pen.Write(TimelineEventKind.TestEnded, workers[0]);
        LeaveTheSeat();
        Control(workers[0]);
        Join();
        if (addsSource)
        {
            ControlAdded();
        }
    }

    private void HandOver()
    {
        pen.Write(
            TimelineEventKind.HandoverBriefed,
            workers[0],
            more: e => e with { Others = TimelinePen.People(workers[1]) }
        );
        foreach (var source in sources.Where(s => s.Isolator is not null))
        {
            Hang(workers[1], source);
        }

        TakeOffOf(workers[0], null);
        pen.Write(TimelineEventKind.IsolationVerified, workers[1], "all");
    }

    private void Release(string by)
    {
        Look(by);
        if (IsGroup)
        {
            pen.Write(
                TimelineEventKind.ExposureChecked,
                by,
                more: e => e with { Others = TimelinePen.People(workers) }
            );
        }

        TakeOff(null);
        Tell(TimelineEventKind.RemovalNotified);
        pen.Write(TimelineEventKind.MachineStarted, by);
        if (random.Next(2) == 0)
        {
            pen.Write(TimelineEventKind.HandedBack, by);
        }
    }

    private void Look(string by)
    {
        pen.Write(TimelineEventKind.AreaInspected, by);
        pen.Write(TimelineEventKind.PeopleClearChecked, by);
    }

    private void TakeOff(string? reason)
    {
        foreach (string worker in workers)
        {
            TakeOffOf(worker, reason);
        }
    }

    private void TakeOffOf(string person, string? reason)
    {
        foreach (var e in pen.On().Where(e => e.Actor.Text == person).Reverse())
        {
            pen.Write(
                e.Kind == TimelineEventKind.TagApplied
                    ? TimelineEventKind.TagRemoved
                    : TimelineEventKind.LockRemoved,
                person,
                null,
                e.Lock!.Value.Text,
                off => off with { Source = e.Source, Reason = reason }
            );
        }
    }

    private void Tell(TimelineEventKind kind) =>
        pen.Write(kind, Lead, more: e => e with { Others = TimelinePen.People(Operator) });

    private ServiceRecord Record() =>
        new()
        {
            Id = new("J-1"),
            Date = day,
            Machine = new(new(Machine), null, null),
            HandsInBladeZone = true,
            Place = isOnBench ? WorkPlace.OnBench : WorkPlace.OnMachine,
            Tasks = [ServiceTask.FullService],
            People =
            [
                .. workers.Select(w => new Participant(new(w), JobRole.Performs)),
                new(new(Lead), JobRole.Leads),
                new(new(Operator), JobRole.Affected),
            ],
            Timeline = pen.Written,
            Units =
            [
                new()
                {
                    Id = new("U-1"),
                    Sheet = "reel-125-9-510",
                    Entries = [],
                },
            ],
            SignOff = new(new(workers[0]), TimelinePen.Parse("2025-11-03T12:00:00Z")),
        };
}
