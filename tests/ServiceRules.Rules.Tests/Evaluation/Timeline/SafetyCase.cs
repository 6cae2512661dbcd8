using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

/// <summary>A job that is nothing but its timeline, to hold checks against.</summary>
internal sealed record SafetyCase
{
    internal static readonly Rule AnyRule = new()
    {
        Id = new("any"),
        Title = "any",
        Requirement = "any",
        Scope = RuleScope.Job,
        Check = new Check.Protection(),
        Severity = Severity.Stop,
        Basis = new(BasisKind.CommonPractice, null, null),
        Advice = "any",
    };

    /// <summary>Ride-on machine: an engine to lock out, a valve to lock, pressure and weight to release.</summary>
    public static Procedure RideOn { get; } =
        new()
        {
            Id = new("P-1"),
            Title = "ride-on",
            Machines = [new("M-1")],
            Place = WorkPlace.OnMachine,
            Controls = new(Key: true, ParkingBrake: true, LoweringUnits: true, ReelDrive: true),
            Sources =
            [
                Source("engine_start", "engine start", isolator: "battery disconnect", lockable: true),
                Source("hydraulic", "hydraulic pressure", isolator: "valve", lockable: true, stored: true),
                Source("gravity", "raised unit", stored: true),
            ],
        };

    public DateOnly Date { get; init; } = new(2026, 4, 13);

    public Procedure? Procedure { get; init; } = RideOn;

    public ImmutableArray<Participant> People { get; init; } = [new(new("tech-01"), JobRole.Performs)];

    public ImmutableArray<RegisteredLock> Locks { get; init; } = [];

    public ImmutableArray<RegisteredPerson> Register { get; init; } = [];

    public ImmutableArray<TimelineEvent> Entries { get; init; } = [];

    public ImmutableArray<UnitWork> Units { get; init; } = [];

    public ImmutableArray<Instrument> Instruments { get; init; } = [];

    public bool IsSignedOff { get; init; } = true;

    /// <summary>What else the record says.</summary>
    public Func<ServiceRecord, ServiceRecord> Recorded { get; init; } = record => record;

    /// <summary>What else the registers say.</summary>
    public Func<AssessmentContext, AssessmentContext> Registered { get; init; } = context => context;

    public SiteZone Zone { get; init; } =
        SiteZone
            .Of(
                "Europe/London",
                "2025b",
                0,
                [Clocks("2026-03-29T01:00:00Z", 60), Clocks("2026-10-25T01:00:00Z", 0)]
            )
            .OrThrow();

    public static EnergySource Source(
        string id,
        string title,
        string? isolator = null,
        bool lockable = false,
        bool stored = false,
        int? recheck = null
    ) =>
        new()
        {
            Id = new(id),
            Title = title,
            Isolator = isolator,
            Lockable = lockable,
            Stored = stored,
            RecheckMinutes = recheck,
            Proof = "tried",
        };

    public static ZoneTransition Clocks(string at, int minutes) => new(Instant(at), minutes);

    public static Moment Instant(string at) =>
        ((RecordedTime.Instant)RecordedTime.Parse(at).OrThrow()).Moment;

    public static Participant Person(string id, JobRole role = JobRole.Performs) => new(new(id), role);

    /// <summary>
    /// This case with a timeline, one entry a line: time, kind, person, then members. A time of four digits is of the
    /// day of the job in summer time: <c>08:08 lock_applied tech-01 source=hydraulic lock=L-1</c>.
    /// </summary>
    public SafetyCase With(string timeline) =>
        this with
        {
            Entries =
            [
                .. timeline
                    .Split('\n', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries)
                    .Select(line => TimelineLine.Read(line, Date)),
            ],
        };

    /// <summary>This case without entries of a kind.</summary>
    public SafetyCase Without(TimelineEventKind kind) =>
        this with
        {
            Entries = [.. Entries.Where(entry => entry.Kind != kind)],
        };

    public CheckOutcome Judge(Check check) =>
        CheckEvaluation.Evaluate(AnyRule with { Check = check }, Frame(), null);

    public JobFrame Frame()
    {
        var record = Recorded(
            new()
            {
                Id = new("J-1"),
                Date = Date,
                Machine = new(new("M-1"), null, null),
                Place = Procedure?.Place ?? WorkPlace.OnMachine,
                Tasks = [ServiceTask.FullService],
                People = People,
                Timeline = Entries,
                Units = Units,
                Instruments = Instruments,
                SignOff = IsSignedOff
                    ? new(new("tech-01"), RecordedTime.Parse("2026-04-13T18:00:00+01:00").OrThrow())
                    : null,
            }
        );
        var context = Registered(
            new()
            {
                Site = "site",
                Zone = Zone,
                Locks = Locks,
                People = Register,
            }
        );
        return new()
        {
            Record = record,
            Context = context,
            Days = JobDays.Of(record, context),
            Book = new([], []),
            Units = [],
            Procedure = Procedure,
            Events = JudgedOrder.Of(record.Timeline, Zone),
            State = IsSignedOff ? RecordState.SignedOff : RecordState.Open,
        };
    }
}
