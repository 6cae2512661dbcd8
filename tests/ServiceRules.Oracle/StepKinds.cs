using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Oracle;

/// <summary>Whether the steps that work needs stand in the timeline, before it or after it.</summary>
internal static class StepKinds
{
    private static readonly TimelineEventKind[] Energising =
    [
        TimelineEventKind.MachineStarted,
        TimelineEventKind.TestEnergised,
        TimelineEventKind.EnergisedTaskPerformed,
    ];

    private static readonly TimelineEventKind[] Undone =
    [
        TimelineEventKind.DriveDisengaged,
        TimelineEventKind.UnitsLowered,
        TimelineEventKind.ParkingBrakeSet,
        TimelineEventKind.KeyRemoved,
        TimelineEventKind.SeenAtRest,
        TimelineEventKind.ReelWedged,
    ];

    public static Possible Required(Facts facts, Check.RequiredEvent check) =>
        check.By is not null
        && facts.Record.Timeline.Any(e =>
            check.Events.Contains(e.Kind) && facts.Context.People.All(known => known.Id != e.Actor)
        )
            ? Stands(facts, check) | Possible.Unproven
            : Stands(facts, check);

    private static Possible Stands(Facts facts, Check.RequiredEvent check)
    {
        if (facts.Procedure is not { } procedure)
        {
            return check.Needs is null ? Possible.Judged : Possible.Any;
        }

        if (!Needed(facts, procedure, check))
        {
            return Possible.NotApplicable;
        }

        if (facts.Ordered() is not { } events || events.Any(e => e.Mark != EntryMark.AtTheTime))
        {
            return Possible.Judged;
        }

        int first = IndexOf(events, e => e.Kind == TimelineEventKind.WorkStarted);
        return first < 0 ? NoWork(facts, events, check)
            : check.When == RequiredWhen.BeforeWork ? Before(facts, procedure, events, check)
            : After(facts, events, check);
    }

    private static Possible NoWork(
        Facts facts,
        IReadOnlyList<TimelineEvent> events,
        Check.RequiredEvent check
    ) =>
        events.Count == 0 || !events.Any(e => check.Events.Contains(e.Kind))
            ? facts.IsOpen
                ? Possible.Unproven
                : Possible.NeverMet
            : Possible.Judged;

    private static Possible Before(
        Facts facts,
        Procedure procedure,
        IReadOnlyList<TimelineEvent> events,
        Check.RequiredEvent check
    )
    {
        var sources = procedure
            .Sources.Where(s =>
                check.Needs switch
                {
                    MachineNeed.IsolatedSource => s.Isolator is not null,
                    MachineNeed.StoredSource => s.Stored,
                    _ => true,
                }
            )
            .ToList();
        var sum = Possible.Met;
        var people = facts
            .HandsIn.Where(p => events.Any(e => e.Kind == TimelineEventKind.WorkStarted && e.Actor == p.Id))
            .ToList();
        switch (check.Per)
        {
            case RequiredPer.Job:
                return Done(events, check, null, null, FirstWork(events, null)).And(Again(events, check));
            case RequiredPer.Source:
                foreach (var source in sources)
                {
                    sum = sum.And(Done(events, check, null, source, FirstWork(events, null)));
                }

                return sum;
            case RequiredPer.Person:
                foreach (var person in people)
                {
                    sum = sum.And(Done(events, check, person, null, FirstWork(events, person)))
                        .And(GlovesAgain(events, check, person));
                }

                break;
            default:
                foreach (var person in people)
                {
                    foreach (var source in sources)
                    {
                        sum = sum.And(Done(events, check, person, source, FirstWork(events, person)));
                    }
                }

                break;
        }

        return people.Count == facts.HandsIn.Count ? sum : sum | Possible.NeverMet;
    }

    private static Possible Done(
        IReadOnlyList<TimelineEvent> events,
        Check.RequiredEvent check,
        Participant? by,
        EnergySource? source,
        int work
    )
    {
        if (events.Take(work).Any(e => Energising.Contains(e.Kind)))
        {
            return Possible.Judged;
        }

        var done = events
            .Take(work)
            .Where(e =>
                check.Events.Contains(e.Kind)
                && (by is null || e.Actor == by.Id)
                && (
                    source is null
                    || e.Source is SourceReference.All or SourceReference.GroupBox
                    || (e.Source is SourceReference.One one && one.Source == source.Id)
                )
            )
            .ToList();
        bool plain = done.Any(e => IsPlain(e, source));
        bool undone = events
            .Take(work)
            .Any(e =>
                e.Kind is TimelineEventKind.LockRemoved or TimelineEventKind.TagRemoved
                || (e.Kind == TimelineEventKind.IsolatorOperated && e.Position == IsolatorPosition.On)
            );
        return plain
            ? undone
                ? Possible.Judged
                : Possible.Met | Possible.Unproven & Doubt(check)
            : done.Count > 0
                ? Possible.Judged
                : Possible.NotMet;
    }

    /// <summary>What running undoes, after each later run and before the next hands-on work.</summary>
    private static Possible Again(IReadOnlyList<TimelineEvent> events, Check.RequiredEvent check)
    {
        if (!check.Events.All(Undone.Contains))
        {
            return Possible.NotApplicable;
        }

        var sum = Possible.NotApplicable;
        int ran = -1;
        for (int at = FirstWork(events, null); at < events.Count; at++)
        {
            if (events[at].Kind is TimelineEventKind.MachineStarted or TimelineEventKind.TestEnergised)
            {
                ran = at;
            }
            else if (events[at].Kind == TimelineEventKind.WorkStarted && ran >= 0)
            {
                bool isThere = events.Take(at).Skip(ran).Any(e => check.Events.Contains(e.Kind));
                sum = sum.And(isThere ? Possible.Met : Possible.Judged);
                ran = -1;
            }
        }

        return ran < 0 ? sum : sum | Possible.NeverNotMet;
    }

    /// <summary>Gloves that measures keep off a test run are entered again before that person's next work.</summary>
    private static Possible GlovesAgain(
        IReadOnlyList<TimelineEvent> events,
        Check.RequiredEvent check,
        Participant person
    )
    {
        if (!check.Events.Contains(TimelineEventKind.GlovesWorn))
        {
            return Possible.NotApplicable;
        }

        var sum = Possible.NotApplicable;
        var (named, off, perhaps) = (false, false, false);
        foreach (var entry in events)
        {
            named |= entry.Measures.Contains(ProtectiveMeasure.NoGlovesNearTurningReel);
            off |= named && entry.Kind == TimelineEventKind.TestEnergised;
            perhaps |= named && entry.Kind is TimelineEventKind.MachineStarted or TimelineEventKind.TestEnded;
            if (
                entry.Kind == TimelineEventKind.GlovesWorn
                && (entry.Actor == person.Id || entry.Others.Contains(person.Id))
            )
            {
                (off, perhaps) = (false, false);
            }
            else if (entry.Kind == TimelineEventKind.WorkStarted && entry.Actor == person.Id)
            {
                sum = sum.And(
                    off ? Possible.NotMet
                    : perhaps ? Possible.Judged
                    : Possible.Met
                );
            }
        }

        return off || perhaps ? sum | Possible.NeverNotMet : sum;
    }

    private static Possible Doubt(Check.RequiredEvent check) =>
        check.Events.Contains(TimelineEventKind.LockApplied) ? Possible.Judged : Possible.None;

    private static bool IsPlain(TimelineEvent step, EnergySource? source) =>
        step.Kind switch
        {
            TimelineEventKind.IsolatorOperated => step.Position
                is IsolatorPosition.Off
                    or IsolatorPosition.Blocked
                    or IsolatorPosition.Closed,
            TimelineEventKind.LockApplied => source?.Lockable != false,
            TimelineEventKind.TagApplied => source?.Lockable == false,
            TimelineEventKind.IsolationVerified => step.Pressure is null,
            _ => source is null || step.Source is SourceReference.One or SourceReference.All,
        };

    private static Possible After(Facts facts, IReadOnlyList<TimelineEvent> events, Check.RequiredEvent check)
    {
        int last = IndexOfLast(events, e => e.Kind == TimelineEventKind.WorkStopped);
        int started = IndexOfLast(events, e => e.Kind == TimelineEventKind.WorkStarted);
        bool anyDone = events.Any(e => check.Events.Contains(e.Kind));
        if (!Alternate(events))
        {
            return Possible.Judged;
        }

        if (last < started || check.Per != RequiredPer.Job)
        {
            return anyDone || check.Per != RequiredPer.Job ? Possible.Judged : Possible.NeverMet;
        }

        int done = IndexOfLast(events, e => check.Events.Contains(e.Kind));
        return done < 0
            ? facts.IsOpen
                ? Possible.NeverMet
                : Possible.NotMet
            : done < last
                ? Possible.NeverMet
                : Possible.Judged;
    }

    /// <summary>Whether everybody's work starts and stops in turn.</summary>
    private static bool Alternate(IReadOnlyList<TimelineEvent> events)
    {
        HashSet<string> working = [];
        return events
            .Where(e => e.Kind is TimelineEventKind.WorkStarted or TimelineEventKind.WorkStopped)
            .All(e =>
                e.Kind == TimelineEventKind.WorkStarted
                    ? working.Add(e.Actor.Text)
                    : working.Remove(e.Actor.Text)
            );
    }

    private static bool Needed(Facts facts, Procedure procedure, Check.RequiredEvent check) =>
        check.Needs switch
        {
            MachineNeed.Key => procedure.Controls.Key,
            MachineNeed.ParkingBrake => procedure.Controls.ParkingBrake,
            MachineNeed.LoweringUnits => procedure.Controls.LoweringUnits,
            MachineNeed.ReelDrive => procedure.Controls.ReelDrive,
            MachineNeed.IsolatedSource => procedure.Sources.Any(s => s.Isolator is not null),
            MachineNeed.StoredSource => procedure.Sources.Any(s => s.Stored),
            MachineNeed.AffectedPeople => facts.Record.People.Any(p => p.Role == JobRole.Affected),
            _ => true,
        };

    private static int FirstWork(IReadOnlyList<TimelineEvent> events, Participant? by) =>
        IndexOf(events, e => e.Kind == TimelineEventKind.WorkStarted && (by is null || e.Actor == by.Id));

    private static int IndexOf(IReadOnlyList<TimelineEvent> events, Func<TimelineEvent, bool> which)
    {
        for (int i = 0; i < events.Count; i++)
        {
            if (which(events[i]))
            {
                return i;
            }
        }

        return -1;
    }

    private static int IndexOfLast(IReadOnlyList<TimelineEvent> events, Func<TimelineEvent, bool> which)
    {
        for (int i = events.Count - 1; i >= 0; i--)
        {
            if (which(events[i]))
            {
                return i;
            }
        }

        return -1;
    }
}
