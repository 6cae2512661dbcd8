using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>After a change of how energy is controlled, whoever works by the procedure was trained again.</summary>
internal static class RetrainedOnChangeDuty
{
    public static CheckOutcome Judge(DutyFrame duty)
    {
        if (ProcedureInUse.Of(duty)?.Procedure is not { ControlStepsChanged: true, From: { } from } procedure)
        {
            return TimelineOutcome.NotApplicable(
                "The register shows no change of how energy is controlled in the procedure of this machine."
            );
        }

        var people = duty.Reading.HandsIn;
        return people.IsEmpty
            ? TimelineOutcome.NobodyNamed()
            : RegisterOutcome.Of(
                people.Select(person => Fault(duty, person, procedure.Id.Text, from)),
                $"The register shows everybody at work trained since the change of procedure {procedure.Id} on {RegisterOutcome.Day(from)}.",
                [.. people.Select(person => JobPeople.PointerOf(duty, person))]
            );
    }

    private static RegisterFault? Fault(
        DutyFrame duty,
        Id<Participant> person,
        string procedure,
        DateOnly from
    ) =>
        duty.PersonOf(person) switch
        {
            { TrainedOn: { } on } when on >= from => null,
            { TrainedOn: { } on } => RegisterFault.Wrong(
                FindingReason.OutOfDate,
                $"Procedure {procedure} changed how energy is controlled on {RegisterOutcome.Day(from)}; {person} was last trained on {RegisterOutcome.Day(on)}.",
                "Train everybody who works by the procedure again after such a change.",
                JobPeople.PointerOf(duty, person)
            ),
            _ => RegisterFault.Unsaid(
                $"Procedure {procedure} changed how energy is controlled on {RegisterOutcome.Day(from)}; the register has no day on which {person} was trained.",
                "Enter the date of training in the register.",
                JobPeople.PointerOf(duty, person)
            ),
        };
}
