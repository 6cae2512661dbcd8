using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Checks;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Electrical work points at the record of how it was done safely, which is kept elsewhere.</summary>
internal static class ElectricalRecordDuty
{
    public static CheckOutcome Judge(DutyFrame duty) =>
        duty.Record switch
        {
            { ElectricalWork: false } => TimelineOutcome.NotApplicable(
                "The record shows no electrical work."
            ),
            { ElectricalRecord: { } record } when !string.IsNullOrWhiteSpace(record) => Told.Met(
                $"The record points at {record} for the electrical work.",
                ["/electricalRecord"]
            ),
            _ => TimelineOutcome.Of(
                Verdict.NotMet,
                FindingReason.StepMissing,
                "The record shows electrical work and points at no record of how it was done safely.",
                ["/electricalWork"],
                "Record the electrical work by the rules for it, and name that record here."
            ),
        };
}
