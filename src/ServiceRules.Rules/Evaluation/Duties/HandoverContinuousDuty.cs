using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// Where work stops and others take it up: each of them was briefed by one who had worked, and no isolator was without a lock or tag
/// from the first that went on until the other's work began. A run of the machine in between is no handover; what must be
/// done again after it is told by its own duty.
/// </summary>
internal static class HandoverContinuousDuty
{
    private const string Act =
        "The next person's lock goes on before the last one's comes off, and the one briefs the other.";

    public static CheckOutcome Judge(DutyFrame duty)
    {
        var changes = Changes(duty).ToImmutableArray();
        if (changes.IsEmpty)
        {
            return TimelineOutcome.NotApplicable(
                "The record shows nobody taking work over from somebody else."
            );
        }

        var restsOn = new List<OrderedEvent>();
        var faults = new List<TimelineFault>();
        foreach (var change in changes)
        {
            faults.AddRange(Gaps(duty, change));
            foreach (var next in change.Incoming)
            {
                if (change.BriefingOf(next) is { } briefing)
                {
                    restsOn.Add(briefing);
                }
                else
                {
                    faults.Add(NotBriefed(duty, change, next));
                }
            }
        }

        restsOn.AddRange(duty.Reading.Devices.Select(device => device.Applied));
        return faults.Count > 0
            ? TimelineOutcome.OfFaults(faults)
            : TimelineOutcome.Met(
                duty.Reading,
                $"The record shows the job handed over to {TimelineWords.List(changes.SelectMany(change => change.Incoming).Select(next => next.Person.Text).Distinct(StringComparer.Ordinal))} with a briefing{Held(duty, changes)}.",
                restsOn
            );
    }

    // What never had a lock on it was under none: that, the duty of devices tells.
    private static string Held(DutyFrame duty, ImmutableArray<Change> changes)
    {
        var held = changes
            .SelectMany(change => duty.SourcesAt(change.Next.Start.Place()))
            .Where(source =>
                source.HasIsolator && duty.Reading.Devices.Any(device => device.IsOn(source.Source.Id))
            )
            .Select(source => source.Source)
            .Distinct()
            .ToList();
        return held.Count == 0
            ? string.Empty
            : $", and a lock or tag on the isolator of {TimelineWords.Named(held)} all the while";
    }

    private static IEnumerable<Change> Changes(DutyFrame duty)
    {
        var reading = duty.Reading;
        var stretches = reading.AnyWork.Intervals;
        for (var index = 1; index < stretches.Length; index++)
        {
            var (before, after) = (stretches[index - 1], stretches[index]);
            var people = reading
                .Works.Where(work => before.Contains(work.Start.Place()))
                .Select(work => work.Person)
                .ToImmutableHashSet();
            var next = reading.Works.First(work => work.Start.Place() == after.From);
            var ran = reading.Running.And(IntervalSet.Of([new(before.Until!.Value, after.From)]));
            if (!people.Contains(next.Person) && ran.Intervals.IsEmpty)
            {
                yield return new(
                    duty,
                    people,
                    before,
                    reading.Events.First(entry => entry.Place() == before.Until),
                    [
                        .. reading
                            .Works.Where(work =>
                                after.Contains(work.Start.Place()) && !people.Contains(work.Person)
                            )
                            .DistinctBy(work => work.Person),
                    ]
                );
            }
        }
    }

    private static IEnumerable<TimelineFault> Gaps(DutyFrame duty, Change change) =>
        from source in duty.SourcesAt(change.Next.Start.Place())
        where source.HasIsolator
        let held = IntervalSet.Of(
            from device in duty.Reading.Devices
            where device.IsOn(source.Source.Id)
            select device.Interval
        )
        where !held.Intervals.IsEmpty && held.Intervals[0].From < change.Stopped.Place()
        from gap in IntervalSet
            .Of([new TimelineInterval(held.Intervals[0].From, change.Next.Start.Place())])
            .Without(held)
            .Intervals
        where !duty.Reading.Energisings.Any(start => gap.Contains(start.Place()))
        group source.Source by gap into together
        select Gap(duty, change, together.Key, [.. together]);

    private static TimelineFault Gap(
        DutyFrame duty,
        Change change,
        TimelineInterval gap,
        ImmutableArray<EnergySource> sources
    )
    {
        var off = duty.Reading.Events.First(entry => entry.Place() == gap.From);
        var on = gap.Until is { } until
            ? duty.Reading.Events.First(entry => entry.Place() == until)
            : change.Next.Start;
        return new(
            Verdict.NotMet,
            FindingReason.Unprotected,
            $"The record shows no lock or tag on {TimelineWords.Named(sources)} from {duty.Words.Time(off)} until {duty.Words.Time(on)}, and {change.Next.Person} taking the work over at {duty.Words.Time(change.Next.Start)}.",
            [off, on, change.Next.Start],
            Act
        );
    }

    private static TimelineFault NotBriefed(DutyFrame duty, Change change, WorkInterval next)
    {
        var told =
            $"The record shows work stopped {duty.Words.AtBy(change.Stopped)} and taken over by {next.Person} at {duty.Words.Time(next.Start)}";
        if (change.ByOwnWord(next) is { } own)
        {
            return new(
                Verdict.Unproven,
                FindingReason.StepMissing,
                $"{told}, and {EventWords.Done(TimelineEventKind.HandoverBriefed)} {duty.Words.AtBy(own)} alone: that one who had worked briefed {next.Person} stands nowhere but in the word of {next.Person}.",
                [change.Stopped, own, next.Start],
                $"Have whoever briefed {next.Person} enter it, as a late entry."
            );
        }

        return change.ByNobodysName(next) is { } briefing
            ? new(
                Verdict.Unproven,
                FindingReason.StepMissing,
                $"{told}, and {EventWords.Done(TimelineEventKind.HandoverBriefed)} {duty.Words.AtBy(briefing)}, which names nobody: which of {TimelineWords.List(change.Incoming.Select(one => one.Person.Text))} was briefed it does not show.",
                [change.Stopped, briefing, next.Start],
                "Have whoever briefed them say whom they briefed, as a late entry."
            )
            : new(
                Verdict.NotMet,
                FindingReason.StepMissing,
                $"{told}, and does not show {EventWords.Done(TimelineEventKind.HandoverBriefed)} between {(next == change.Next ? "them" : $"{next.Person} and one who had worked")}.",
                [change.Stopped, next.Start],
                Act
            );
    }

    private sealed record Change(
        DutyFrame Duty,
        ImmutableHashSet<Id<Participant>> People,
        TimelineInterval Before,
        OrderedEvent Stopped,
        ImmutableArray<WorkInterval> Incoming
    )
    {
        /// <summary>Whoever took up the work first.</summary>
        public WorkInterval Next => Incoming[0];

        /// <summary>The entry by which somebody who takes over was briefed, also while the work still goes on; or null.</summary>
        public OrderedEvent? BriefingOf(WorkInterval next) =>
            Briefings(next)
                .FirstOrDefault(entry =>
                    HandoverBriefing.IsOf(
                        entry,
                        next.Person,
                        Incoming.Length == 1,
                        who => HadWorked(who, entry)
                    )
                );

        /// <summary>A briefing of which nobody but the one who takes over tells; or null.</summary>
        public OrderedEvent? ByOwnWord(WorkInterval next) =>
            Briefings(next)
                .FirstOrDefault(entry =>
                    HandoverBriefing.IsOwnWord(entry, next.Person, who => HadWorked(who, entry))
                );

        /// <summary>A briefing by one who worked before that does not say whom of several it was for.</summary>
        public OrderedEvent? ByNobodysName(WorkInterval next) =>
            Briefings(next)
                .FirstOrDefault(entry => entry.Event.Others.IsEmpty && HadWorked(entry.Event.Actor, entry));

        private IEnumerable<OrderedEvent> Briefings(WorkInterval next) =>
            Duty
                .Reading.Of(TimelineEventKind.HandoverBriefed)
                .Where(entry => entry.Place() > Before.From && entry.Place() < next.Start.Place());

        private bool HadWorked(Id<Participant> person, OrderedEvent by) =>
            People.Contains(person)
            || Incoming.Any(one => one.Person == person && one.Start.Place() < by.Place());
    }
}
