using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Checks;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>A written procedure for the machine was in force when the job began.</summary>
internal static class WrittenProcedureDuty
{
    private const string Machine = "/machine";

    public static CheckOutcome Judge(DutyFrame duty)
    {
        if (UndocumentedExceptionDuty.Holds(duty))
        {
            return TimelineOutcome.NotApplicable(
                "No written procedure is needed: all that is needed to do without one is stated, and the registers do not gainsay it."
            );
        }

        return ProcedureInUse.Of(duty) switch
        {
            { IsInForce: true } used => Told.Met(
                $"Procedure {used.Procedure.Id} was in force on {RegisterOutcome.Day(used.Began)}.",
                [Machine]
            ) with
            {
                Notices = [.. OthersGoneThrough(duty, used.Procedure.Id.Text)],
            },
            { Procedure: { Until: { } until } procedure } used when until < used.Began => RegisterOutcome.Of(
                RegisterFault.Wrong(
                    FindingReason.OutOfDate,
                    $"Procedure {procedure.Id} was in force until {RegisterOutcome.Day(until)} and has no successor for {duty.Record.Machine.Id}.",
                    "Bring a procedure into force for this machine before the next job on it.",
                    Machine
                )
            ),
            { Procedure: { From: { } from } procedure } => RegisterOutcome.Of(
                RegisterFault.Wrong(
                    FindingReason.OutOfDate,
                    $"Procedure {procedure.Id} came into force on {RegisterOutcome.Day(from)}, after the job had begun.",
                    "Check the date of the procedure, and which one the job went by.",
                    Machine
                )
            ),
            _ => RegisterOutcome.Of(
                RegisterFault.Wrong(
                    FindingReason.NotRegistered,
                    $"The register has no written make-safe procedure for {duty.Record.Machine.Id} {(duty.Record.Place == WorkPlace.OnBench ? "on the bench" : "on the machine")}.",
                    "Write the procedure of this machine and bring it into force.",
                    Machine
                )
            ),
        };
    }

    private static IEnumerable<string> OthersGoneThrough(DutyFrame duty, string inForce) =>
        duty
            .Reading.Events.Select(entry => entry.Event.Procedure)
            .OfType<string>()
            .Where(named => !string.Equals(named, inForce, StringComparison.Ordinal))
            .Distinct(StringComparer.Ordinal)
            .Select(named => $"The record shows procedure {named} gone through, not the one in force.");
}
