using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>What the last inspection of the procedure found was put right by the day of the job.</summary>
internal static class InspectionFindingsClosedDuty
{
    public static CheckOutcome Judge(DutyFrame duty) =>
        Inspections.Judge(
            duty,
            (procedure, inspection) =>
            {
                var days = duty.Job.Days;
                var raised = inspection.Findings.Where(finding => finding.Raised <= days.Latest).ToList();
                return RegisterOutcome.Of(
                    raised.Where(finding => !(finding.Closed <= days.Worked)).Select(Open),
                    raised.Count == 0
                        ? $"The inspection of procedure {procedure.Id} on {RegisterOutcome.Day(inspection.On)} found nothing to put right."
                        : $"What the inspection of procedure {procedure.Id} on {RegisterOutcome.Day(inspection.On)} found was put right.",
                    [Inspections.Machine]
                );
            }
        );

    private static RegisterFault Open(InspectionFinding finding) =>
        RegisterFault.Wrong(
            FindingReason.Faulty,
            $"Finding {finding.Id} of the inspection, of {RegisterOutcome.Day(finding.Raised)}, {(finding.Closed is { } closed ? $"was put right only on {RegisterOutcome.Day(closed)}" : "is open")}{(finding.Due is { } due ? $"; it was to be put right by {RegisterOutcome.Day(due)}" : string.Empty)}.",
            "Put right what the inspection found, and close the finding with the day.",
            Inspections.Machine
        );
}
