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

        List<TimelineFault> faults =
        [
            .. others.SelectMany(other => Given(duty, other)),
            .. others.SelectMany(other => Endangered(duty, other)),
            .. others.SelectMany(other => Took(duty, other)),
            .. others.SelectMany(other => Lost(duty, other)),
        ];
        return faults.Count > 0
            ? TimelineOutcome.OfFaults(faults)
            : TimelineOutcome.Met(
                duty.Reading,
                $"The record and {TimelineWords.List(others.Select(other => other.Name))} of the same machine show neither start nor energy, and no lock taken off, where the other shows hands in.",
                []
            );
    }

    private static IEnumerable<TimelineFault> Given(DutyFrame duty, OtherReading other) =>
        from given in EnergyGiven.In(duty.Reading)
        from hands in HandsKnown.In(other.Reading, duty.Reading)
        where given.Endangers(hands, other.Reading)
        select Fault(
            given.IsInTheMinuteOf(hands),
            $"The record shows {given.What} {duty.Words.AtBy(given.Entry)}, and record {other.Name} shows {hands.Person} with hands in {duty.Record.Machine.Id} {hands.Told(duty.Words)}.",
            [given.Entry],
            AskFirst
        );

    private static IEnumerable<TimelineFault> Endangered(DutyFrame duty, OtherReading other) =>
        from hands in HandsKnown.In(duty.Reading, other.Reading)
        from given in EnergyGiven.In(other.Reading)
        where given.Endangers(hands, duty.Reading)
        select Fault(
            given.IsInTheMinuteOf(hands),
            $"Record {other.Name} shows {given.What} {duty.Words.AtBy(given.Entry)}, and this record shows {hands.Person} with hands in {hands.Told(duty.Words)}.",
            hands.Entries,
            FindOut
        );

    private static IEnumerable<TimelineFault> Took(DutyFrame duty, OtherReading other) =>
        DeviceTaken
            .In(duty, duty.Reading, other.Reading)
            .Select(taken =>
                Taken(
                    taken,
                    $"The record shows {taken.Named} taken off {duty.Words.AtBy(taken.Entry)}, which record {other.Name} shows put on by {taken.Device.Person} at {duty.Words.Time(taken.Device.Applied)}{HandsIn(duty, taken)}.",
                    [taken.Entry],
                    "A lock comes off by the hand that put it on, with hands out: ask its owner first."
                )
            );

    private static IEnumerable<TimelineFault> Lost(DutyFrame duty, OtherReading other) =>
        DeviceTaken
            .In(duty, other.Reading, duty.Reading)
            .Select(taken =>
                Taken(
                    taken,
                    $"Record {other.Name} shows {taken.Named} taken off {duty.Words.AtBy(taken.Entry)}, which this record shows put on by {taken.Device.Person} at {duty.Words.Time(taken.Device.Applied)}{HandsIn(duty, taken)}.",
                    [taken.Device.Applied, .. taken.Hands.SelectMany(hands => hands.Entries).Distinct()],
                    FindOut
                )
            );

    private static string HandsIn(DutyFrame duty, DeviceTaken taken) =>
        taken.Hands is [var first, ..]
            ? $", with hands of {first.Person} in {first.Told(duty.Words)}"
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
        bool isUntold,
        string text,
        ImmutableArray<OrderedEvent> entries,
        string act
    )
    {
        var fault = new TimelineFault(Verdict.NotMet, FindingReason.Unprotected, text, entries, act);
        return isUntold ? LeadUpOutcome.Untold(fault) : fault;
    }
}
