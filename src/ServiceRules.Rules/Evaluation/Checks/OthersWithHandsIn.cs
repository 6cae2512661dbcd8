using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// What is shown done with the machine while somebody has hands in: it is handed back, its user is at the controls, stops
/// the drive or looks whether it stands, units are let down, cut-outs are tried, it is switched off once more, or somebody
/// with no part in the work lets stored energy off.
/// </summary>
internal static class OthersWithHandsIn
{
    public static IEnumerable<TimelineFault> Faults(DutyFrame duty) =>
        HandedBack(duty)
            .Concat(AtTheControls(duty))
            .Concat(EnergyLetOff(duty))
            .Concat(UnitsMoved(duty))
            .Concat(UnitsPropped(duty))
            .Concat(CutOutsTried(duty))
            .Concat(SwitchedOffAgain(duty))
            .Concat(PutOnWithoutIsolator(duty));

    private static IEnumerable<TimelineFault> HandedBack(DutyFrame duty) =>
        from back in duty.Reading.Of(TimelineEventKind.HandedBack)
        from work in duty.Reading.Works
        where work.Interval.Contains(back.Place())
        let fault = HandedBack(duty, back, work)
        where fault is not null
        select fault;

    private static TimelineFault? HandedBack(DutyFrame duty, OrderedEvent back, WorkInterval work)
    {
        var words = duty.Words;
        // Without an end of work, that the machine went back may only mean that the end was not entered.
        if (work.Stop is not { } stop)
        {
            return duty.Reading.IsOpen
                ? new(
                    Verdict.Unproven,
                    FindingReason.InProgress,
                    $"The record shows {EventWords.Done(back.Event.Kind)} {words.AtBy(back)}, and does not show that {work.Person}, at work from {words.Time(work.Start)}, had stopped by then.",
                    [back, work.Start],
                    "Enter when hands-on work stopped."
                )
                : null;
        }

        var told = new TimelineFault(
            Verdict.NotMet,
            FindingReason.Unprotected,
            $"The record shows {EventWords.Done(back.Event.Kind)} {words.AtBy(back)} while {work.Person} was at work: whoever has it back may start it.",
            [back, work.Start],
            "Nobody hands a machine back before everybody's hands are out and seen to be."
        );
        var isUntold =
            back.Place().IsInTheMinuteOf(work.Start.Place()) || back.Place().IsInTheMinuteOf(stop.Place());
        return isUntold ? LeadUpOutcome.Untold(told) : told;
    }

    private static IEnumerable<TimelineFault> AtTheControls(DutyFrame duty) =>
        from entry in duty.Reading.Of(TimelineEventKind.DriveDisengaged, TimelineEventKind.SeenAtRest)
        where IsTheUsers(duty, entry.Event.Actor) && !duty.Reading.Running.Contains(entry.Place())
        let work = duty.Reading.Works.FirstOrDefault(work =>
            work.Interval.Contains(entry.Place()) && !entry.Place().IsInTheMinuteOf(work.Start.Place())
        )
        where work is { Stop: not null } || (work is not null && duty.Reading.IsOpen)
        select new TimelineFault(
            Verdict.Unproven,
            FindingReason.StepMissing,
            $"The record shows {EventWords.Done(entry.Event.Kind)} {duty.Words.AtBy(entry)}, who has no part in the work, while {work.Person} was at work: it does not show that the machine stood still until then.",
            [entry, work.Start],
            "Ask who was at the machine then, and why; nobody else touches its controls while hands are in."
        );

    // Pressure let off moves what it held, and whoever does it stands at the machine without a part in the work.
    private static IEnumerable<TimelineFault> EnergyLetOff(DutyFrame duty) =>
        from both in Amid(duty, TimelineEventKind.StoredEnergyReleased)
        where IsAnOutsider(duty, both.Entry.Event.Actor)
        select Doubt(
            both,
            $"The record shows {EventWords.Done(both.Entry.Event)} {duty.Words.AtBy(both.Entry)}, {WhoHasNoPart(duty, both.Entry.Event.Actor)}, while {AtWork(duty, both.Entry)} at work: it does not show who had asked for it, nor hands clear of what it held.",
            "Ask who let it off and where hands were; stored energy is let off before hands go in, by those who work or by somebody authorised."
        );

    private static string WhoHasNoPart(DutyFrame duty, Id<Participant> person) =>
        Authorities.Of(duty, person) is var authority and not Authority.Shown
            ? $"who has no part in the work and {Authorities.Against(authority)}"
            : "who has no part in the work";

    private static string AtWork(DutyFrame duty, OrderedEvent entry)
    {
        var people = duty
            .Reading.Works.Where(work => work.Interval.Contains(entry.Place()))
            .Select(work => work.Person.Text)
            .Distinct(StringComparer.Ordinal)
            .ToList();
        return $"{TimelineWords.List(people)} {(people.Count == 1 ? "was" : "were")}";
    }

    // What hangs over hands is energy, whoever lets it down.
    private static IEnumerable<TimelineFault> UnitsMoved(DutyFrame duty) =>
        Amid(duty, TimelineEventKind.UnitsLowered)
            .Select(both =>
                Doubt(
                    both,
                    $"The record shows {EventWords.Done(both.Entry.Event.Kind)} {duty.Words.AtBy(both.Entry)} while {both.Work.Person} was at work: it does not show that they were held until then, nor hands clear of them.",
                    "Ask what was moved and where hands were; units are lowered or held before hands go in, and stay so."
                )
            );

    // A unit is held before anybody reaches under it; whoever holds it up for another moves it over their hands.
    private static IEnumerable<TimelineFault> UnitsPropped(DutyFrame duty) =>
        from entry in duty.Reading.Of(TimelineEventKind.UnitSupported)
        let work = AmidWork.Of(duty.Reading, entry, other: entry.Event.Actor)
        where work is not null
        select Doubt(
            (entry, work),
            $"The record shows {EventWords.Done(entry.Event.Kind)} {duty.Words.AtBy(entry)} while {work.Person} was at work: it does not show what held it until then, nor the hands of {work.Person} clear of it.",
            "Ask what was propped up and where hands were; a raised unit is held before anybody's hands go under it."
        );

    // A cut-out is proved by trying whether the machine runs.
    private static IEnumerable<TimelineFault> CutOutsTried(DutyFrame duty) =>
        Amid(duty, TimelineEventKind.CutOutsProved)
            .Select(both =>
                Doubt(
                    both,
                    $"The record shows {EventWords.Done(both.Entry.Event.Kind)} {duty.Words.AtBy(both.Entry)} while {both.Work.Person} was at work: it does not show how, with the machine held off and hands in.",
                    "Ask what was tried then; cut-outs are proved with all hands out, in the run after release."
                )
            );

    // Whoever switches it off says that it was on until then; that it had been off is what they work by.
    private static IEnumerable<TimelineFault> SwitchedOffAgain(DutyFrame duty) =>
        Amid(
                duty,
                TimelineEventKind.MachineShutDown,
                TimelineEventKind.KeyRemoved,
                TimelineEventKind.PlugRemoved,
                TimelineEventKind.IsolatorOperated
            )
            .Where(both =>
                both.Entry.Event is { Mark: EntryMark.AtTheTime, Position: not IsolatorPosition.On }
            )
            .Select(both => (both.Entry, both.Work, Before: OffBefore(duty.Reading, both.Entry)))
            .Where(one => one.Before is not null)
            .Select(one =>
                Doubt(
                    (one.Entry, one.Work),
                    $"The record shows {EventWords.Done(one.Entry.Event.Kind)}{OfSource(one.Entry)} {duty.Words.AtBy(one.Entry)} while {one.Work.Person} was at work, and {duty.Words.AtBy(one.Before!)} before: it does not show that it stayed off in between.",
                    "Ask what was switched on between the two; if it is one act entered twice, enter the second as late."
                )
            );

    // Of a source with an isolator this ends everybody's protection; one without has nothing that a lock holds, and no end.
    private static IEnumerable<TimelineFault> PutOnWithoutIsolator(DutyFrame duty) =>
        from both in Amid(duty, TimelineEventKind.IsolatorOperated)
        where both.Entry.Event.Position == IsolatorPosition.On
        from source in duty.Sources
        where
            !source.HasIsolator
            && both.Entry.Event.Source is SourceReference.One one
            && one.Source == source.Source.Id
        select new TimelineFault(
            Verdict.NotMet,
            FindingReason.Unprotected,
            $"The record shows {EventWords.Done(both.Entry.Event)} ({source.Source.Id}) {duty.Words.AtBy(both.Entry)} while {both.Work.Person} was at work: nothing shows its energy held off from then on.",
            [both.Entry, both.Work.Start],
            "Nobody lets energy on while hands are in: hands out, release it and prove it dead again."
        );

    private static OrderedEvent? OffBefore(TimelineReading reading, OrderedEvent again) =>
        reading
            .Events.Where(entry => entry.Place() < again.Place())
            .LastOrDefault(entry =>
                IsStart(entry.Event)
                || (
                    entry.Event.Kind == again.Event.Kind
                    && entry.Event.Source == again.Event.Source
                    && (entry.Event.Actor == again.Event.Actor || entry.Event.Position == IsolatorPosition.On)
                )
            )
            is { } last
        && !IsStart(last.Event)
        && last.Event.Position != IsolatorPosition.On
        && !last.Place().IsInTheMinuteOf(again.Place())
            ? last
            : null;

    private static bool IsStart(TimelineEvent entry) =>
        entry.Kind is TimelineEventKind.MachineStarted or TimelineEventKind.TestEnergised;

    private static string OfSource(OrderedEvent entry) =>
        entry.Event.Source is SourceReference.One one ? $" ({one.Source})" : string.Empty;

    private static IEnumerable<(OrderedEvent Entry, WorkInterval Work)> Amid(
        DutyFrame duty,
        params TimelineEventKind[] kinds
    ) =>
        from entry in duty.Reading.Of(kinds)
        let work = AmidWork.Of(duty.Reading, entry)
        where work is not null
        select (entry, work);

    private static TimelineFault Doubt(
        (OrderedEvent Entry, WorkInterval Work) both,
        string text,
        string act
    ) => new(Verdict.Unproven, FindingReason.StepMissing, text, [both.Entry, both.Work.Start], act);

    // As the user is; and whom neither the record names nor the register has.
    private static bool IsAnOutsider(DutyFrame duty, Id<Participant> person) =>
        IsTheUsers(duty, person)
        || (
            !duty.Reading.HandsIn.Contains(person)
            && Authorities.Of(duty, person) == Authority.NotKnown
            && duty.Record.People.All(one => one.Id != person)
        );

    // Whoever works, now or in the next shift, leads or is authorised may well look again.
    private static bool IsTheUsers(DutyFrame duty, Id<Participant> person) =>
        !duty.Reading.HandsIn.Contains(person)
        && (JobPeople.IsOnlyAffected(duty, person) || Authorities.Of(duty, person) == Authority.Denied);
}
