using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>The procedure had been inspected within a year of the day of the job.</summary>
internal static class ProcedureInspectedDuty
{
    private const string Machine = "/machine";
    private const string Act = "Have the procedure inspected by somebody who does not use it.";

    public static CheckOutcome Judge(DutyFrame duty)
    {
        if (ProcedureInUse.Of(duty) is not { Procedure: var procedure })
        {
            return TimelineOutcome.NotApplicable("There is no procedure to inspect.");
        }

        // What must not have run out is held against the later day where date and times part.
        var days = duty.Job.Days;
        var day = days.Agree ? days.Dated : days.Latest;
        return RegisterOutcome.Of(
            [NeverOrUnsaid(procedure, day), After(procedure, days.Worked), RunOut(procedure, day)],
            $"Procedure {procedure.Id} was inspected on {On(procedure)}; the next inspection is due by {(DueBy(procedure) is { } due ? RegisterOutcome.Day(due) : "a day not stated")}.",
            [Machine]
        );
    }

    /// <summary>Until when the last inspection holds: a year, or less where the site says so; null: there was none.</summary>
    public static DateOnly? DueBy(Procedure procedure) => procedure.YearlyInspectionDue;

    private static RegisterFault? NeverOrUnsaid(Procedure procedure, DateOnly day) =>
        procedure switch
        {
            { LastInspected: not null } => null,
            { InspectionDue: { } due } when due < day => RegisterFault.Wrong(
                FindingReason.OutOfDate,
                $"The inspection of procedure {procedure.Id} was due by {RegisterOutcome.Day(due)}, and the register has none.",
                Act,
                Machine
            ),
            { InspectionDue: { } due } => RegisterFault.Unsaid(
                $"The register says that the inspection of procedure {procedure.Id} is due on {RegisterOutcome.Day(due)}, and not when the last one was.",
                "Enter the inspection of the procedure in the register.",
                Machine
            ),
            _ => RegisterFault.Wrong(
                FindingReason.NotRegistered,
                $"The register has no inspection of procedure {procedure.Id}.",
                Act,
                Machine
            ),
        };

    private static RegisterFault? After(Procedure procedure, DateOnly worked) =>
        procedure.LastInspected is { } on && on > worked
            ? RegisterFault.Wrong(
                FindingReason.OutOfDate,
                $"Procedure {procedure.Id} was inspected on {RegisterOutcome.Day(on)}, after the day of the job.",
                Act,
                Machine
            )
            : null;

    private static RegisterFault? RunOut(Procedure procedure, DateOnly day) =>
        DueBy(procedure) is { } due && due < day
            ? RegisterFault.Wrong(
                FindingReason.OutOfDate,
                $"Procedure {procedure.Id} was last inspected on {On(procedure)}; the next inspection was due by {RegisterOutcome.Day(due)}.",
                Act,
                Machine
            )
            : null;

    private static string On(Procedure procedure) =>
        procedure.LastInspected is { } on ? RegisterOutcome.Day(on) : "no day";
}
