using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// The last inspection went through their duties with everybody at work in the job who was authorised before it. People
/// of an outside employer are for that employer to inspect.
/// </summary>
internal static class InspectionReviewedWithEachDuty
{
    public static CheckOutcome Judge(DutyFrame duty) =>
        Inspections.Judge(duty, (procedure, inspection) => Judge(duty, procedure, inspection));

    private static CheckOutcome Judge(DutyFrame duty, Procedure procedure, ProcedureInspection inspection)
    {
        var concerned = duty
            .Reading.HandsIn.Select(duty.PersonOf)
            .OfType<RegisteredPerson>()
            .Where(person => person is { Authorised: true, Employer: Employer.Site })
            .Where(person => !(person.TrainedOn > inspection.On))
            .ToList();
        return concerned.Count == 0
            ? TimelineOutcome.NotApplicable(
                "The register has nobody at work in this job who was authorised before the inspection."
            )
            : RegisterOutcome.Of(
                concerned
                    .Where(person => !inspection.People.Contains(person.Id))
                    .Select(person => NotReviewed(duty, procedure, inspection, person)),
                $"The inspection of procedure {procedure.Id} on {RegisterOutcome.Day(inspection.On)} went through their duties with {TimelineWords.List(concerned.Select(person => person.Id.Text))}.",
                [.. concerned.Select(person => JobPeople.PointerOf(duty, person.Id))]
            );
    }

    private static RegisterFault NotReviewed(
        DutyFrame duty,
        Procedure procedure,
        ProcedureInspection inspection,
        RegisteredPerson person
    ) =>
        person.TrainedOn is null
            ? RegisterFault.Unsaid(
                $"The register does not say since when {person.Id} is authorised, and the inspection of procedure {procedure.Id} did not go through their duties with them.",
                "Enter the date of training in the register.",
                At(duty, person.Id)
            )
            : RegisterFault.Wrong(
                FindingReason.StepMissing,
                $"The inspection of procedure {procedure.Id} on {RegisterOutcome.Day(inspection.On)} did not go through their duties with {person.Id}.",
                "Go through the procedure with everybody who is authorised, and enter it in the certificate.",
                At(duty, person.Id)
            );

    private static string At(DutyFrame duty, Id<Participant> person) => JobPeople.PointerOf(duty, person);
}
