using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Of whom an inspection found something, they were trained again before they worked.</summary>
internal static class RetrainedAfterFindingDuty
{
    public static CheckOutcome Judge(DutyFrame duty)
    {
        var days = duty.Job.Days;
        var findings = (ProcedureInUse.Of(duty)?.Procedure.Inspection?.Findings ?? [])
            .Where(finding => finding.Raised <= days.Latest)
            .Select(finding => (finding, About: AtWork(duty, finding)))
            .Where(found => found.About is not null)
            .ToList();
        return findings.Count == 0
            ? TimelineOutcome.NotApplicable(
                "The register has no finding of an inspection about anybody at work."
            )
            : RegisterOutcome.Of(
                findings.Select(found => Fault(duty, found.finding, found.About!.Value, days.Worked)),
                "The register shows everybody at work trained again after what an inspection found of them.",
                [.. findings.Select(found => JobPeople.PointerOf(duty, found.About!.Value)).Distinct()]
            );
    }

    private static Id<Participant>? AtWork(DutyFrame duty, InspectionFinding finding) =>
        finding.About is { } about && duty.Reading.HandsIn.Contains(about) ? about : null;

    private static RegisterFault? Fault(
        DutyFrame duty,
        InspectionFinding finding,
        Id<Participant> person,
        DateOnly worked
    ) =>
        duty.PersonOf(person) switch
        {
            { TrainedOn: { } on } when on > finding.Raised && on <= worked => null,
            { TrainedOn: { } on } => RegisterFault.Wrong(
                FindingReason.OutOfDate,
                $"Finding {finding.Id} of {RegisterOutcome.Day(finding.Raised)} is about {person}, whose training is of {RegisterOutcome.Day(on)}.",
                "Train the person again before they work by the procedure.",
                JobPeople.PointerOf(duty, person)
            ),
            _ => RegisterFault.Wrong(
                FindingReason.NotRegistered,
                $"Finding {finding.Id} of {RegisterOutcome.Day(finding.Raised)} is about {person}, and the register has no training of {person} since.",
                "Train the person again before they work by the procedure.",
                JobPeople.PointerOf(duty, person)
            ),
        };
}
