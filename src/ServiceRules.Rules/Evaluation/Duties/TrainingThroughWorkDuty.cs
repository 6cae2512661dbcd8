using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>The training of everybody at work, or who hung a device, had not run out, before the job or during it.</summary>
internal static class TrainingThroughWorkDuty
{
    public static CheckOutcome Judge(DutyFrame duty)
    {
        var people = duty
            .Reading.HandsIn.Concat(JobPeople.Hangings(duty).Select(hanging => hanging.Event.Actor))
            .Distinct()
            .Where(person => duty.PersonOf(person)?.TrainedUntil is not null)
            .ToList();
        return people.Count == 0
            ? TimelineOutcome.NotApplicable("The register states no end of anybody's training.")
            : RegisterOutcome.Of(
                people.Select(person => Fault(duty, person, duty.PersonOf(person)!.TrainedUntil!.Value)),
                "The training of everybody at work, and of whoever hung a device, held until the end of the job.",
                [.. people.Select(person => JobPeople.PointerOf(duty, person))]
            );
    }

    private static RegisterFault? Fault(DutyFrame duty, Id<Participant> person, DateOnly until)
    {
        var days = duty.Job.Days;
        var ran =
            days.First is { } first && first <= until
                ? $"while the job went on until {RegisterOutcome.Day(days.Latest)}"
                : "before the job";
        return until >= days.Latest
            ? null
            : RegisterFault.Wrong(
                FindingReason.OutOfDate,
                $"The training of {person} ran out on {RegisterOutcome.Day(until)}, {ran}.",
                "Train the person again, and enter the day in the register.",
                JobPeople.PointerOf(duty, person)
            );
    }
}
