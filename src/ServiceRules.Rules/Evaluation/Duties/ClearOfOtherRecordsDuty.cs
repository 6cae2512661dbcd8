using System.Collections.Immutable;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// While one record shows hands in a machine, no other record starts it, gives it energy, hands it back or takes off a lock that
/// hangs there. It is told at both: at the record whose people were in danger, and at the one that did it.
/// </summary>
internal static class ClearOfOtherRecordsDuty
{
    private const string AskFirst =
        "Ask who else works on the machine, and see them and their locks clear of it, before it gets energy again.";

    private const string FindOut =
        "Stop, find out how the machine could get energy, and hang an own lock on every isolator before hands go in again.";

    public static CheckOutcome Judge(DutyFrame duty)
    {
        var others = duty.Reading.Others;
        if (others.IsEmpty)
        {
            return TimelineOutcome.NotApplicable("No other record of this machine is given with this one.");
        }

        var beside = others.Select(other => new JobBeside(duty, other)).ToList();
        List<TimelineFault> faults =
        [
            .. beside.SelectMany(Given),
            .. beside.SelectMany(Endangered),
            .. beside.SelectMany(PressureBeside.Faults),
            .. beside.SelectMany(UnitsMovedBeside.Faults),
            .. beside.SelectMany(Took),
            .. beside.SelectMany(Lost),
        ];
        return faults.Count > 0
            ? TimelineOutcome.OfFaults(faults)
            : TimelineOutcome.Met(
                duty.Reading,
                $"The record and {TimelineWords.List(others.Select(other => other.Name))} of the same machine show neither start nor energy, no pressure above its limit, and no lock taken off, where the other shows hands in.",
                []
            );
    }

    private static IEnumerable<TimelineFault> Given(JobBeside both) =>
        from given in EnergyGiven.In(both.Own)
        from hands in both.HandsAndStepsOfTheOther
        where given.Endangers(hands, both.Others) || given.MayRunOn(hands, [both.Own, both.Others])
        select Fault(
            both,
            given,
            hands,
            $"The record shows {given.What} {both.Words.AtBy(given.Entry)}, and record {both.Name} shows {hands.Person} with hands in {both.Duty.Record.Machine.Id} {hands.Told(both.Words)}",
            given.Entries,
            given.Beside,
            AskFirst
        );

    private static IEnumerable<TimelineFault> Endangered(JobBeside both) =>
        from hands in both.OwnHandsAndSteps
        from given in both.GivenByTheOther
        where given.Endangers(hands, both.Own) || given.MayRunOn(hands, [both.Own, both.Others])
        select Fault(
            both,
            given,
            hands,
            $"Record {both.Name} shows {given.What} {both.Words.AtBy(given.Entry)}, and this record shows {hands.Person} with hands in {hands.Told(both.Words)}",
            hands.Entries,
            hands.Beside,
            FindOut
        );

    private static IEnumerable<TimelineFault> Took(JobBeside both) =>
        DeviceTaken
            .In(both.Duty, both.Own, both.Others)
            .Select(taken =>
                Taken(
                    taken,
                    $"The record shows {taken.Named} taken off {both.Words.AtBy(taken.Entry)}, which record {both.Name} shows put on by {taken.Device.Person} at {both.Words.Time(taken.Device.Applied)}{HandsIn(both, taken)}.",
                    [taken.Entry],
                    "A lock comes off by the hand that put it on, with hands out: ask its owner first."
                )
            );

    private static IEnumerable<TimelineFault> Lost(JobBeside both) =>
        DeviceTaken
            .In(both.Duty, both.Others, both.Own)
            .Select(taken =>
                Taken(
                    taken,
                    $"Record {both.Name} shows {taken.Named} taken off {both.Words.AtBy(taken.Entry)}, which this record shows put on by {taken.Device.Person} at {both.Words.Time(taken.Device.Applied)}{HandsIn(both, taken)}.",
                    [taken.Device.Applied, .. taken.Hands.SelectMany(hands => hands.Entries).Distinct()],
                    FindOut
                )
            );

    private static string HandsIn(JobBeside both, DeviceTaken taken) =>
        taken.Hands is [var first, ..]
            ? $", with hands of {first.Person} in {first.Told(both.Words)}"
            : string.Empty;

    private static TimelineFault Taken(
        DeviceTaken taken,
        string text,
        ImmutableArray<OrderedEvent> entries,
        string act
    ) =>
        new(
            Verdict.NotMet,
            taken.IsByAnother ? FindingReason.WrongPerson : FindingReason.Unprotected,
            text,
            entries,
            act
        );

    private static TimelineFault Fault(
        JobBeside both,
        EnergyGiven given,
        HandsKnown hands,
        string text,
        ImmutableArray<OrderedEvent> entries,
        ImmutableArray<string> besides,
        string act
    )
    {
        if (given.RunBefore is { } end)
        {
            return new(
                Verdict.Unproven,
                FindingReason.NotCredible,
                $"{text}; it may tell of the run that ended {both.Words.AtBy(end)}.",
                entries,
                "Have whoever did it say when the reel ran, as a late entry.",
                besides
            );
        }

        if (given.MayRunOn(hands, [both.Own, both.Others]))
        {
            return new(
                Verdict.Unproven,
                FindingReason.StepMissing,
                $"{text}; neither shows when the machine was stopped.",
                entries,
                "Have whoever started the machine say when it was stopped, as a late entry.",
                besides
            );
        }

        var fault = new TimelineFault(
            Verdict.NotMet,
            FindingReason.Unprotected,
            $"{text}.",
            entries,
            act,
            besides
        );
        return given.IsInTheMinuteOf(hands) ? LeadUpOutcome.Untold(fault) : fault;
    }
}
