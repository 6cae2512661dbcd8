using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Who did what while the machine ran: who started it, who did the task, who else acted at it meanwhile.</summary>
internal sealed class PeopleAtRun
{
    private PeopleAtRun(DutyFrame duty, MachineRun run)
    {
        Duty = duty;
        Run = run;
        IsEndOwn =
            run is { End: { } end, IsStartMissing: false }
            && !duty.Reading.Events.Any(entry =>
                entry.Place() > run.Start.Place()
                && entry.Place() < end.Place()
                && (
                    entry.Event.Kind == TimelineEventKind.HandedBack
                    || duty.Reading.Energisings.Contains(entry)
                )
            );
        var over = IsEndOwn
            ? run.End
            : duty.Reading.Events.FirstOrDefault(entry =>
                entry.Place() > run.Start.Place()
                && (
                    entry.Event.Kind == TimelineEventKind.HandedBack
                    || duty.Reading.Energisings.Contains(entry)
                    || HandsInRun.FollowsAStop(entry.Event)
                )
            );
        Interval = new(run.Start.Place(), over?.Place());
        Until = over?.Moment;
        Performers =
        [
            .. run
                .Performed.Select(entry => entry.Event.Actor)
                .Concat(LappedBy(duty, run, Interval))
                .Distinct(),
        ];
        Acts = [.. OfTimeline().Concat(OfBench())];
    }

    /// <summary>The job.</summary>
    public DutyFrame Duty { get; }

    /// <summary>The run.</summary>
    public MachineRun Run { get; }

    /// <summary>Who started it; null: not shown.</summary>
    public Id<Participant>? Starter => Run.IsStartMissing ? null : Run.Start.Event.Actor;

    /// <summary>Who did the task on the running reel, by the timeline and the bench log.</summary>
    public ImmutableArray<Id<Participant>> Performers { get; }

    /// <summary>Who worked: those who did the task, else whoever ran the machine.</summary>
    public ImmutableArray<Id<Participant>> Workers =>
        !Performers.IsEmpty ? Performers
        : Starter is { } starter ? [starter]
        : [];

    /// <summary>From its start until its own end, or until something shows it over.</summary>
    public TimelineInterval Interval { get; }

    /// <summary>When it was over; null: nothing shows it over.</summary>
    public Moment? Until { get; }

    /// <summary>What anybody did at the machine while it ran, or to end it.</summary>
    public ImmutableArray<ActInRun> Acts { get; }

    /// <summary>The entry that ended it; null: none is shown, or another run began before.</summary>
    public OrderedEvent? Ended => IsEndOwn ? Run.End : null;

    private bool IsEndOwn { get; }

    /// <summary>The people of a run.</summary>
    public static PeopleAtRun Of(DutyFrame duty, MachineRun run) => new(duty, run);

    private IEnumerable<ActInRun> OfTimeline() =>
        from entry in Duty.Reading.Events
        where
            (entry.Place() > Interval.From && Interval.Contains(entry.Place()))
            || (IsEndOwn && entry == Run.End)
        let isAtControls = IsAtTheControls(entry.Event.Kind)
        where isAtControls || IsAtTheUnit(entry.Event.Kind)
        select new ActInRun(
            entry.Event.Actor,
            $"{EventWords.Done(entry.Event.Kind)} {Duty.Words.AtBy(entry)}",
            entry,
            entry.Pointer(),
            isAtControls,
            entry != Run.End && (entry.Moment == Run.Start.Moment || entry.Moment == Until)
        );

    private IEnumerable<ActInRun> OfBench() =>
        from hands in Duty.Reading.HandsByTheLog
        where
            hands.Entry.By is not null
            && hands.Moment > Run.Start.Moment
            && (Until is not { } until || hands.Moment < until)
        select new ActInRun(
            hands.Entry.By!.Value,
            $"{hands.What} at {Duty.Words.Time(hands.At)} by {hands.Entry.By}",
            null,
            hands.Pointer,
            IsAtControls: false,
            IsAtEdge: false
        );

    private static bool IsAtTheControls(TimelineEventKind kind) =>
        kind
            is TimelineEventKind.TestEnergised
                or TimelineEventKind.MachineStarted
                or TimelineEventKind.TestEnded
                or TimelineEventKind.MachineShutDown
                or TimelineEventKind.DriveDisengaged
                or TimelineEventKind.ParkingBrakeSet
                or TimelineEventKind.KeyRemoved;

    private static bool IsAtTheUnit(TimelineEventKind kind) =>
        HandsInRun.IsDoneAtTheUnit(kind)
        || (kind != TimelineEventKind.PeopleClearChecked && StepBursts.IsAtTheMachine(kind))
        || kind
            is TimelineEventKind.WorkStarted
                or TimelineEventKind.WorkStopped
                or TimelineEventKind.StoredEnergyRechecked;

    // The bench log has who lapped: in this run by its time; without one, where there is no other run for a task.
    private static IEnumerable<Id<Participant>> LappedBy(
        DutyFrame duty,
        MachineRun run,
        TimelineInterval interval
    )
    {
        var isOnly = run.IsTask && MachineRun.Of(duty).Count(other => other.IsTask) == 1;
        return from unit in duty.Record.Units
            from entry in unit.Entries
            where
                entry is Grinding { Kind: GrindingKind.Lapping, By: not null }
                && (
                    entry.At is { } at
                        ? interval.Contains(new(JudgedOrder.MomentOf(at, duty.Context.Zone), int.MaxValue))
                        : isOnly
                )
            select entry.By!.Value;
    }
}

/// <summary>Something that somebody did at the machine while it ran.</summary>
/// <param name="Person">Who.</param>
/// <param name="What">What, when and by whom, after <c>the record shows</c>.</param>
/// <param name="Entry">The entry; null: it stands in the bench log.</param>
/// <param name="Pointer">Where it stands.</param>
/// <param name="IsAtControls">It is done where the machine is driven from, and takes nobody to the unit.</param>
/// <param name="IsAtEdge">It stands at the very instant of the start or the end: which came first is not told.</param>
internal sealed record ActInRun(
    Id<Participant> Person,
    string What,
    OrderedEvent? Entry,
    string Pointer,
    bool IsAtControls,
    bool IsAtEdge
);
