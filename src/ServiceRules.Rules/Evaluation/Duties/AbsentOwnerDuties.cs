using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>What the documented exception asks for the device of an owner who is not there.</summary>
internal static class AbsentOwnerDuties
{
    /// <summary>Their absence was confirmed before, and nothing shows them there meanwhile.</summary>
    public static CheckOutcome OwnerAbsent(DutyFrame duty)
    {
        var outcome = Judge(
            duty,
            removal =>
                removal switch
                {
                    { AbsenceConfirmed: null } => Missing(
                        removal,
                        TimelineEventKind.AbsenceConfirmed,
                        $"does not show the absence of {removal.Owner} confirmed before"
                    ),
                    { SeenMeanwhile: { } seen } => new(
                        $"shows {EventWords.Done(seen.Event.Kind)} {duty.Words.AtBy(seen)} meanwhile"
                    )
                    {
                        Entries = [seen],
                    },
                    { SeenAround: { } seen } => new(
                        seen.Moment < removal.Entry.Moment
                            ? $"meanwhile shows {seen.What}"
                            : $"within half an hour shows {seen.What}: the absence certified is not credible"
                    )
                    {
                        IsContradiction = seen.Moment >= removal.Entry.Moment,
                        Entries = seen.Entries,
                        Beside = seen.Beside,
                    },
                    { AbsenceConfirmed: { } confirmed } => NotTheirs(removal, confirmed),
                    _ => null,
                },
            "See that the owner is not there before their lock comes off.",
            removal => removal.AbsenceConfirmed,
            "The record shows the owner's absence confirmed before the lock came off."
        );
        return outcome.Verdict == Verdict.Met
            ? outcome with
            {
                Notices = [.. outcome.Notices, .. ToldSoon(duty)],
            }
            : outcome;
    }

    // Who can be told at once could have been asked: told, and no doubt, for a call may be answered late.
    private static IEnumerable<string> ToldSoon(DutyFrame duty) =>
        from removal in Claimed(duty)
        let told = removal.OwnerTold
        where
            told is not null
            && told.Moment > removal.Entry.Moment
            && told.Moment - removal.Entry.Moment <= TimeSpan.FromMinutes(30)
        select $"{removal.Owner} was told at {duty.Words.Time(told)}, within half an hour of their lock coming off at {duty.Words.Time(removal.Entry)}: ask whether they could have taken it off.";

    /// <summary>Somebody tried to reach them.</summary>
    public static CheckOutcome OwnerSought(DutyFrame duty) =>
        Judge(
            duty,
            removal =>
                removal.ContactAttempted is { } attempt
                    ? NotTheirs(removal, attempt)
                    : Missing(
                        removal,
                        TimelineEventKind.ContactAttempted,
                        $"does not show an attempt to reach {removal.Owner}"
                    ),
            "Try to reach the owner by every way there is, and enter each try.",
            removal => removal.ContactAttempted,
            "The record shows that the owner was sought."
        );

    /// <summary>They were told before they took up work again.</summary>
    public static CheckOutcome OwnerTold(DutyFrame duty)
    {
        var waiting = Claimed(duty)
            .Where(removal => removal is { OwnerBack: null, OwnerTold: null })
            .ToList();
        var outcome = Judge(
            duty,
            removal =>
                removal switch
                {
                    { OwnerBack: { } back, OwnerTold: null } => Missing(
                        removal,
                        TimelineEventKind.OwnerInformed,
                        $"does not show {removal.Owner} told before {EventWords.Done(back.Event.Kind)} at {duty.Words.Time(back)}",
                        back
                    ),
                    { OwnerTold: null } when SignedOff(removal) is { } signed => Missing(
                        removal,
                        TimelineEventKind.OwnerInformed,
                        $"does not show {removal.Owner} told before the job was signed off by {removal.Owner} at {duty.Words.Time(signed.At)}"
                    ) with
                    {
                        Beside = ["/signOff"],
                    },
                    { OwnerTold: { } told } => NotTheirs(removal, told),
                    _ => null,
                },
            "Tell the owner before they work again.",
            removal => removal.OwnerTold,
            "The record shows the owner told before working again."
        );
        if (outcome.Verdict == Verdict.NotMet || waiting.Count == 0)
        {
            return outcome;
        }

        // It waits for the owner, and the machine does not wait with it.
        var names = TimelineWords.List(
            waiting.Select(removal => removal.Owner.Text).Distinct(StringComparer.Ordinal)
        );
        return TimelineOutcome.NotApplicable(
            $"The record does not show {names} back at work since their lock came off, so not yet whether they were told in time."
        ) with
        {
            Notices = [$"Tell {names} that the lock is off before they work again."],
            Evidence = waiting.Select(removal => removal.Entry).Evidence(),
        };
    }

    private static ImmutableArray<Removal> Claimed(DutyFrame duty) =>
        [.. Removal.Of(duty).Where(removal => removal is { ClaimsException: true, IsByOwner: false })];

    private static CheckOutcome Judge(
        DutyFrame duty,
        Func<Removal, Lack?> lacking,
        string act,
        Func<Removal, OrderedEvent?> restsOn,
        string met
    )
    {
        var claimed = Claimed(duty);
        if (claimed.IsEmpty)
        {
            return TimelineOutcome.NotApplicable(
                "The record shows no lock or tag taken off by the exception for an absent owner."
            );
        }

        var faults =
            from removal in claimed
            let lacks = lacking(removal)
            where lacks is not null
            select new TimelineFault(
                lacks.IsContradiction || lacks.IsUnknown ? Verdict.Unproven : Verdict.NotMet,
                lacks switch
                {
                    { IsContradiction: true } => FindingReason.NotCredible,
                    { IsUnknown: true } => FindingReason.NotRegistered,
                    { IsPerson: true } => FindingReason.WrongPerson,
                    _ => FindingReason.StepMissing,
                },
                $"The record shows {removal.Named} of {removal.Owner} taken off {duty.Words.AtBy(removal.Entry)} by exception {removal.Entry.Event.Exception}, and {lacks.What}.",
                [removal.Entry, .. lacks.Entries],
                act,
                lacks.Beside
            );
        var found = faults.ToList();
        if (found.Count > 0)
        {
            return TimelineOutcome.OfFaults(found);
        }

        ImmutableArray<OrderedEvent> steps = [.. claimed.Select(restsOn).OfType<OrderedEvent>().Distinct()];
        var outcome = TimelineOutcome.Met(duty.Reading, met, steps);
        return outcome with { Notices = [.. outcome.Notices, .. ToRead(duty, steps)] };
    }

    // `no answer` is what an honest attempt says, so a no that is not read as a denial holds nothing, and is shown.
    private static IEnumerable<string> ToRead(DutyFrame duty, IEnumerable<OrderedEvent> steps) =>
        from step in steps
        let words = SaidOtherwise.Negating(step.Event)
        where words is not null
        select $"The record shows {EventWords.Done(step.Event.Kind)} {duty.Words.AtBy(step)}, and says of it `{words}`: a person has to read whether that bears it out.";

    private static Lack Missing(
        Removal removal,
        TimelineEventKind kind,
        string what,
        params ReadOnlySpan<OrderedEvent> entries
    ) =>
        removal.Denied(kind) is { } denied
            ? new($"{what} ({removal.Duty.Words.Time(denied)}: {SaidOtherwise.Told(denied)})")
            {
                Entries = [.. entries, denied],
            }
            : new(what) { Entries = [.. entries] };

    private static Lack? NotTheirs(Removal removal, OrderedEvent step) =>
        removal.StandingOf(step) is not Authority.Shown and var standing
            ? new(
                $"shows {EventWords.Done(step.Event.Kind)} {removal.Duty.Words.AtBy(step)}, {Authorities.Against(standing)}"
            )
            {
                IsPerson = true,
                IsUnknown = standing == Authority.NotKnown,
                Entries = [step],
            }
            : null;

    private static SignOff? SignedOff(Removal removal) =>
        removal.Duty.Record.SignOff is { } signed
        && signed.By == removal.Owner
        && JudgedOrder.MomentOf(signed.At, removal.Duty.Context.Zone) > removal.Entry.Moment
            ? signed
            : null;

    /// <summary>What the exception lacks.</summary>
    /// <param name="What">After <c>and the record</c>.</param>
    private sealed record Lack(string What)
    {
        /// <summary>Not a step that was left out, but something that cannot be so.</summary>
        public bool IsContradiction { get; init; }

        /// <summary>Whoever did it is not one to do it.</summary>
        public bool IsPerson { get; init; }

        /// <summary>Whether they are, the register does not say.</summary>
        public bool IsUnknown { get; init; }

        public ImmutableArray<OrderedEvent> Entries { get; init; } = [];

        public ImmutableArray<string> Beside { get; init; } = [];
    }
}
