using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Engine.Tests.SafeWork;

/// <summary>Registers in which nothing is missing and nothing has run out.</summary>
internal static class SafeSite
{
    public const string Style = "red";

    private static readonly DateOnly Effective = new(2025, 1, 10);
    private static readonly DateOnly Trained = new(2025, 1, 15);
    private static readonly DateOnly Inspected = new(2025, 1, 20);

    public static AssessmentContext Of(
        ImmutableArray<EnergySource> sources,
        string[] workers,
        bool outside,
        bool tags,
        WorkPlace place,
        bool controls,
        bool laps
    )
    {
        string[] locksmiths = [.. workers];
        return new()
        {
            Site = "site",
            Zone = NewYork(),
            Machines = [new(new(SafeJob.Machine), "machine", sources)],
            Procedures = [Procedure(sources, workers, place, controls, laps)],
            People =
            [
                .. workers.Select((w, n) => Person(w, sources, outside && n == workers.Length - 1, tags)),
                Person(SafeJob.Inspector, sources, false, tags),
                new(new(SafeJob.Lead), false, null, null) { InstructedOn = Trained, Crew = "shop" },
                new(new(SafeJob.Operator), false, null, null) { InstructedOn = Trained, Crew = "shop" },
            ],
            Locks =
            [
                .. from worker in locksmiths
                from source in sources.Select(s => s.Id.Text).Append("box")
                select new RegisteredLock(new(SafeJob.LockOf(worker, source)), new Id<Participant>(worker))
                {
                    Style = Style,
                },
                .. sources.Select(s => new RegisteredLock(new($"J-{s.Id.Text}"), null) { Style = Style }),
                .. locksmiths
                    .SelectMany(w => new[] { $"T-{w}", $"A-{w}" })
                    .Select(tag => new RegisteredLock(new(tag), null)
                    {
                        IsTag = true,
                        Legend = "do not operate",
                        Style = Style,
                    }),
            ],
            LockStyle = Style,
            RemovalException = new("P-90", [new(SafeJob.Lead)]),
        };
    }

    private static Procedure Procedure(
        ImmutableArray<EnergySource> sources,
        string[] workers,
        WorkPlace place,
        bool controls,
        bool laps
    ) =>
        new()
        {
            Id = new("P-1"),
            Title = "procedure",
            Machines = [new(SafeJob.Machine)],
            Place = place,
            Sources = sources,
            Controls = new(controls, controls, controls, controls),
            EnergisedTasks = laps
                ?
                [
                    new(
                        ServiceTask.Lap,
                        new Id<Participant>(SafeJob.Lead),
                        [ProtectiveMeasure.LongHandledBrush],
                        "all off",
                        null,
                        10
                    ),
                ]
                : [],
            From = Effective,
            ControlStepsChanged = true,
            Inspection = new(
                Inspected,
                new Id<Participant>(SafeJob.Inspector),
                new Id<MachineVisit>(SafeJob.Machine),
                TimelinePen.People([.. workers, SafeJob.Operator]),
                TimelinePen.People(workers),
                true,
                []
            ),
        };

    private static RegisteredPerson Person(
        string id,
        ImmutableArray<EnergySource> sources,
        bool outside,
        bool tags
    ) =>
        new(new(id), true, Trained, null)
        {
            Employer = outside ? Employer.Outside : Employer.Site,
            Crew = outside ? "outside" : "shop",
            Covers = [.. sources.Select(s => s.Id), new(SafeJob.Added)],
            StatesCovers = true,
            TagLimitsOn = tags ? Trained : null,
            InstructedOn = Trained,
        };

    private static SiteZone NewYork() =>
        SiteZone
            .Of(
                "America/New_York",
                "2025b",
                -300,
                [Clocks("2025-03-09T07:00:00Z", -240), Clocks("2025-11-02T06:00:00Z", -300)]
            )
            .TryGet(out var zone, out _)
            ? zone
            : throw new InvalidOperationException("zone");

    private static ZoneTransition Clocks(string at, int minutes) =>
        new(((RecordedTime.Instant)TimelinePen.Parse(at)).Moment, minutes);
}
