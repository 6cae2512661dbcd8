using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>The inspection of the procedure did not run out between the first and the last day of the job.</summary>
internal static class InspectionThroughWorkDuty
{
    public static CheckOutcome Judge(DutyFrame duty)
    {
        var days = duty.Job.Days;
        if (
            ProcedureInUse.Of(duty) is not { Procedure: var procedure }
            || ProcedureInspectedDuty.DueBy(procedure) is not { } due
        )
        {
            return TimelineOutcome.NotApplicable("There is no inspection that could run out.");
        }

        if (days.First is not { } first || days.Last is not { } last || first == last)
        {
            return TimelineOutcome.NotApplicable("The record shows the job on one day.");
        }

        var fault =
            first <= due && due < last
                ? RegisterFault.Wrong(
                    FindingReason.OutOfDate,
                    $"The inspection of procedure {procedure.Id} ran out on {RegisterOutcome.Day(due)}, while the job went on until {RegisterOutcome.Day(last)}.",
                    "Have the procedure inspected by somebody who does not use it.",
                    "/machine"
                )
                : null;
        return due < first
            ? TimelineOutcome.NotApplicable("The inspection had run out before the job began.")
            : RegisterOutcome.Of(
                [fault],
                $"The inspection of procedure {procedure.Id} held until {RegisterOutcome.Day(due)}, longer than the job.",
                ["/machine"]
            );
    }
}
