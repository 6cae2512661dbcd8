using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>The certificate of the last inspection names the machine, the day, the people and the inspector.</summary>
internal static class InspectionCertifiedDuty
{
    public static CheckOutcome Judge(DutyFrame duty) =>
        Inspections.Judge(
            duty,
            (procedure, inspection) =>
            {
                var missing = new[]
                {
                    inspection.Machine is null ? "the machine" : null,
                    inspection.People.IsEmpty ? "the people" : null,
                    inspection.Inspector is null ? "the inspector" : null,
                }
                    .OfType<string>()
                    .ToList();
                return RegisterOutcome.Of(
                    [
                        missing.Count == 0
                            ? null
                            : RegisterFault.Wrong(
                                FindingReason.StepMissing,
                                $"The certificate of the inspection of procedure {procedure.Id} on {RegisterOutcome.Day(inspection.On)} does not name {TimelineWords.List(missing)}.",
                                "Complete the certificate: machine, day, people and inspector.",
                                Inspections.Machine
                            ),
                    ],
                    $"The certificate of the inspection of procedure {procedure.Id} names the machine, the day, the people and the inspector.",
                    [Inspections.Machine]
                );
            }
        );
}
