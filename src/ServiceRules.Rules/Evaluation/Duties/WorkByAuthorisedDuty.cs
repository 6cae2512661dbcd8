using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// Everybody with hands in was authorised when they began, by a training that held then, whether or not a device was put on.
/// </summary>
internal static class WorkByAuthorisedDuty
{
    private const string Act = "Only authorised people put hands in.";

    public static CheckOutcome Judge(DutyFrame duty)
    {
        var people = duty.Reading.HandsIn;
        return people.IsEmpty
            ? TimelineOutcome.Of(
                Verdict.Unproven,
                duty.Reading.IsOpen ? FindingReason.InProgress : FindingReason.StepMissing,
                "The record does not show whose hands were in.",
                [],
                "Record who does the work."
            )
            : RegisterOutcome.Of(
                people.Select(person => Fault(duty, person)),
                "The register shows everybody with hands in authorised, by a training that held when they began.",
                [.. people.Select(person => JobPeople.PointerOf(duty, person))]
            );
    }

    /// <summary>Why a person may not put hands in at all, after their name; null: the register does not say so.</summary>
    public static string? Barred(DutyFrame duty, Id<Participant> person)
    {
        var days = duty.Job.Days;
        var began = duty.Reading.FirstWorkOf(person) is { Start: var start }
            ? JobPeople.DayOf(duty, start)
            : days.Worked;
        // What must not have run out is held against the later day where date and times part.
        var latest = days is { First: not null, Agree: false } ? days.Latest : began;
        return duty.PersonOf(person) switch
        {
            { Left: { } left } when left < began => $"left on {RegisterOutcome.Day(left)}",
            { Authorised: false } => "is not authorised to lock out and work on machines",
            { TrainedOn: { } on } when on > began => $"was trained only on {RegisterOutcome.Day(on)}",
            { TrainedOn: not null, TrainedUntil: { } until } when until < latest =>
                $"is no longer trained: their training held until {RegisterOutcome.Day(until)}",
            _ => null,
        };
    }

    private static RegisterFault? Fault(DutyFrame duty, Id<Participant> person)
    {
        var at = duty.Reading.FirstWorkOf(person) is { } work
            ? new[] { JobPeople.PointerOf(duty, person), work.Start.Pointer() }
            :
            [
                JobPeople.PointerOf(duty, person),
                .. duty
                    .Reading.HandsWithoutTime.Where(hands => hands.Person == person)
                    .Select(hands => hands.Pointer),
            ];
        return duty.PersonOf(person) switch
        {
            null => RegisterFault.Unsaid(
                $"The register of people does not have {person}.",
                "Enter the person in the register.",
                at
            ),
            { Authorised: true, TrainedOn: null } => RegisterFault.Unsaid(
                $"The register of people has no date of training for {person}.",
                "Enter the date of training in the register.",
                at
            ),
            var known when Barred(duty, person) is { } barred => RegisterFault.Wrong(
                known.Authorised ? FindingReason.OutOfDate : FindingReason.WrongPerson,
                $"{person} works on this job and {barred}.",
                Act,
                at
            ),
            _ when duty.RoleOf(person) == JobRole.Affected => RegisterFault.Unsaid(
                $"The record names {person} as affected by the job, not as doing it, and shows them with hands in.",
                "Correct the part that they had in the job, saying why; who is only affected keeps hands out.",
                at
            ),
            _ => null,
        };
    }
}
