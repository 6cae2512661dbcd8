using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>The people affected had been told what lockout is and to leave it alone; training as an authorised person tells it too.</summary>
internal static class AffectedInstructedDuty
{
    private const string Act = "Instruct the people affected, and enter the day in the register.";

    public static CheckOutcome Judge(DutyFrame duty)
    {
        var affected = JobPeople.Affected(duty).ToList();
        return affected.Count == 0
            ? TimelineOutcome.NotApplicable("The record names nobody as affected.")
            : RegisterOutcome.Of(
                affected.Select(person => Fault(duty, person)),
                "The register shows the people affected instructed.",
                [.. affected.Select(person => JobPeople.PointerOf(duty, person))]
            );
    }

    private static RegisterFault? Fault(DutyFrame duty, Id<Participant> person)
    {
        var began = duty.Job.Days.First ?? duty.Job.Days.Dated;
        var at = JobPeople.PointerOf(duty, person);
        return duty.PersonOf(person) switch
        {
            null => RegisterFault.Unsaid(
                $"The register of people does not have {person}, who is affected.",
                "Enter the person and the day of instruction in the register.",
                at
            ),
            { InstructedOn: { } on } when on <= began => null,
            { Authorised: true, TrainedOn: { } on } when on <= began => null,
            { InstructedOn: { } on } => RegisterFault.Wrong(
                FindingReason.OutOfDate,
                $"{person}, who is affected, was instructed only on {RegisterOutcome.Day(on)}.",
                Act,
                at
            ),
            _ => RegisterFault.Wrong(
                FindingReason.NotRegistered,
                $"The register has no day on which {person}, who is affected, was instructed.",
                Act,
                at
            ),
        };
    }
}
