using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Every training and instruction of the people of the job stands in the register with its day.</summary>
internal static class TrainingCertifiedDuty
{
    public static CheckOutcome Judge(DutyFrame duty)
    {
        var affected = JobPeople.Affected(duty).ToList();
        var people = duty
            .Reading.HandsIn.Concat(JobPeople.Hangings(duty).Select(hanging => hanging.Event.Actor))
            .Concat(affected)
            .Distinct()
            .ToList();
        var known = people.Where(person => duty.PersonOf(person) is not null).ToList();
        return known.Count == 0
            ? TimelineOutcome.NotApplicable("The register of people has nobody of this job.")
            : RegisterOutcome.Of(
                known.Select(person => Fault(duty, person, affected.Contains(person))),
                "The register has the day of every training and instruction of the people of this job.",
                [.. known.Select(person => JobPeople.PointerOf(duty, person)).Distinct()]
            );
    }

    private static RegisterFault? Fault(DutyFrame duty, Id<Participant> person, bool isAffected) =>
        duty.PersonOf(person) switch
        {
            { Authorised: true, TrainedOn: null } => Undated(duty, person, "authorised", "trained"),
            { Authorised: false, InstructedOn: null } when isAffected => Undated(
                duty,
                person,
                "affected",
                "instructed"
            ),
            _ => null,
        };

    private static RegisterFault Undated(
        DutyFrame duty,
        Id<Participant> person,
        string standing,
        string taught
    ) =>
        RegisterFault.Wrong(
            FindingReason.NotRegistered,
            $"{person} is {standing}, and the register has no day on which they were {taught}.",
            "Certify every training with the name and the day.",
            JobPeople.PointerOf(duty, person)
        );
}
