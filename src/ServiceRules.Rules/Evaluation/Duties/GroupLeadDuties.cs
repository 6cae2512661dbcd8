using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Who is in charge of a group, and of several crews.</summary>
internal static class GroupLeadDuties
{
    /// <summary>One authorised person was put in charge of the group by the time at which a second joined.</summary>
    public static CheckOutcome PrimaryNamed(DutyFrame duty)
    {
        var workers = GroupWork.WithStepsByHand(duty);
        if (workers.Length < 2)
        {
            return OnePerson();
        }

        var outcome = GroupWork.PutInCharge(
            duty,
            TimelineEventKind.PrimaryAssigned,
            GroupWork.Joining(duty),
            "Name one authorised person in charge of the group, and for how many, before hands go in."
        );
        var counted = duty
            .Reading.Of(TimelineEventKind.PrimaryAssigned)
            .Select(entry => entry.Event.Count)
            .FirstOrDefault(count => count is not null);
        return outcome.Verdict == Verdict.Met && counted is { } count && count < workers.Length
            ? TimelineOutcome.Of(
                Verdict.Unproven,
                FindingReason.NotCredible,
                $"The record names one person in charge of {count}, and shows {workers.Length} at work: who was in charge of the others it does not show.",
                outcome.Evidence,
                "Ask who was in charge of whom; enter what they say as a late entry."
            )
            : outcome;
    }

    /// <summary>Whether the register has those at work in more than one crew, or with more than one employer.</summary>
    public static bool IsOfSeveralCrews(DutyFrame duty)
    {
        var people = Registered(duty);
        return CrewsOf(people).Length > 1 || people.Select(person => person.Employer).Distinct().Count() > 1;
    }

    private static ImmutableArray<RegisteredPerson> Registered(DutyFrame duty) =>
        [.. GroupWork.WithStepsByHand(duty).Select(duty.PersonOf).OfType<RegisteredPerson>()];

    private static ImmutableArray<string> CrewsOf(ImmutableArray<RegisteredPerson> people) =>
        [
            .. people
                .Select(person => person.Crew ?? (person.Employer == Employer.Outside ? "outside" : null))
                .OfType<string>()
                .Distinct(StringComparer.Ordinal),
        ];

    // A coordinator of crews that are named is one of those: of another crew at work nothing is shown.
    private static CheckOutcome OfTheCrewsNamed(DutyFrame duty, CheckOutcome outcome)
    {
        var entries = duty.Reading.Of(TimelineEventKind.CoordinatorAssigned);
        var missing =
            outcome.Verdict != Verdict.Met || entries.Any(entry => entry.Event.Crews.IsEmpty)
                ? []
                : CrewsOf(Registered(duty))
                    .Except(entries.SelectMany(entry => entry.Event.Crews), StringComparer.Ordinal)
                    .ToList();
        return missing.Count == 0
            ? outcome
            : TimelineOutcome.Of(
                Verdict.Unproven,
                FindingReason.NotCredible,
                $"The record names a coordinator of {TimelineWords.List(entries.SelectMany(entry => entry.Event.Crews).Distinct(StringComparer.Ordinal))}, and the register has people of {TimelineWords.List(missing)} among those at work: who coordinated these it does not show.",
                outcome.Evidence,
                "Ask who coordinated whom; enter what they say as a late entry."
            );
    }

    private static string? CrewOf(RegisteredPerson? person) =>
        person is null ? null : $"{person.Employer} {person.Crew}";

    /// <summary>Where people of several crews, or of several jobs at one machine, work together, one authorised person coordinates them.</summary>
    public static CheckOutcome CoordinatorNamed(DutyFrame duty)
    {
        var jobs = JobsAtOnce.Judge(duty);
        if (!IsOfSeveralCrews(duty) || (jobs is not null && Suppression.IsWithoutGroup(duty)))
        {
            return jobs
                ?? TimelineOutcome.NotApplicable("The register shows people of one crew only in this job.");
        }

        var crews = OfTheCrewsNamed(
            duty,
            GroupWork.PutInCharge(
                duty,
                TimelineEventKind.CoordinatorAssigned,
                GroupWork.JoiningOfCrews(duty, person => CrewOf(duty.PersonOf(person))),
                "Name one authorised person who coordinates the crews before hands go in."
            )
        );
        return jobs is null or { Verdict: Verdict.Met } ? crews
            : crews.Verdict == Verdict.Met ? jobs
            : TimelineOutcome.OfBoth(crews, jobs);
    }

    /// <summary>
    /// Whoever is in charge accounted for everybody after the last work and before the group's lock came off: the job lock
    /// on an isolator, or where there is none the first lock that comes off one.
    /// </summary>
    public static CheckOutcome GroupAccounted(DutyFrame duty)
    {
        var workers = GroupWork.Workers(duty);
        if (workers.Length < 2)
        {
            return OnePerson();
        }

        var reading = duty.Reading;
        var what = EventWords.Done(TimelineEventKind.ExposureChecked);
        const string act = "Account for everybody of the group before its lock comes off.";
        if (reading.EndOfWork() is not { } end)
        {
            return reading.IsOpen
                ? AffectedPeople.NotYet(
                    $"{what}, after the last work and before the group's lock comes off",
                    act
                )
                : TimelineOutcome.Of(
                    Verdict.Unproven,
                    FindingReason.StepMissing,
                    $"The record does not show when work ended, so not {what} after it.",
                    [],
                    "Enter when hands-on work stopped, as a late entry."
                );
        }

        var limit = GroupDeviceOff(duty, end);
        var inCharge = reading
            .Of(TimelineEventKind.PrimaryAssigned)
            .SelectMany(entry => GroupWork.Named(entry))
            .ToImmutableHashSet();
        var all = reading.Of(TimelineEventKind.ExposureChecked);
        var inTime = all.Where(entry =>
                entry.Place() > end.Place() && (limit is null || entry.Place() < limit.Place())
            )
            .ToImmutableArray();
        var good = inTime.FirstOrDefault(entry =>
            inCharge.Contains(entry.Event.Actor)
            && (entry.Event.Others.IsEmpty || !workers.Any(person => IsLeftOut(entry, person)))
        );
        if (good is not null)
        {
            return TimelineOutcome.Met(reading, $"The record shows {what} {duty.Words.AtBy(good)}.", [good]);
        }

        if (limit is null && inTime.IsEmpty && reading.IsOpen)
        {
            return AffectedPeople.NotYet($"{what}, before the group's lock comes off", act);
        }

        var released = limit is null
            ? string.Empty
            : $" before {EventWords.Done(limit.Event.Kind)} at {duty.Words.Time(limit)}";
        var why = inTime switch
        {
            [] => string.Empty,
            [var entry, ..] when !inCharge.Contains(entry.Event.Actor) =>
                $" by whoever is in charge (at {duty.Words.Time(entry)}: by {entry.Event.Actor})",
            [var entry, ..] =>
                $" in full (at {duty.Words.Time(entry)}: not {TimelineWords.List(workers.Where(person => IsLeftOut(entry, person)).Select(person => person.Text))})",
        };
        return TimelineOutcome.Of(
            Verdict.NotMet,
            FindingReason.StepMissing,
            $"The record does not show {what}{why} after work ended at {duty.Words.Time(end)}{released}.",
            new[] { end, limit }.OfType<OrderedEvent>().Concat(inTime).Evidence(),
            act
        );
    }

    // Whoever counts stands there themselves.
    private static bool IsLeftOut(OrderedEvent entry, Id<Participant> person) =>
        entry.Event.Actor != person && !entry.Event.Others.Contains(person);

    private static OrderedEvent? GroupDeviceOff(DutyFrame duty, OrderedEvent end)
    {
        var off = DevicesOn
            .Removals(duty)
            .Where(entry => entry.Place() > end.Place() && entry.Event.Source is not SourceReference.GroupBox)
            .ToImmutableArray();
        return off.Any(IsJobLock)
            // A tag stands on an isolator that takes no lock for everybody.
            ? off.First(entry => IsJobLock(entry) || entry.Event.Kind == TimelineEventKind.TagRemoved)
            : off.FirstOrDefault();

        bool IsJobLock(OrderedEvent entry) =>
            entry.Event.Lock is { } device && duty.LockOf(device) is { Owner: null, IsTag: false };
    }

    private static CheckOutcome OnePerson() =>
        TimelineOutcome.NotApplicable("The record shows one person at work, not a group.");
}
