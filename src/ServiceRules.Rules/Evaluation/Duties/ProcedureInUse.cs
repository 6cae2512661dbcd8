using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>The written procedure that a job went by: the one in force when it began, else the last that was, else one to come.</summary>
/// <param name="Procedure">The procedure.</param>
/// <param name="Began">The day on which the job began.</param>
internal sealed record ProcedureInUse(Procedure Procedure, DateOnly Began)
{
    /// <summary>Whether it was in force on the day on which the job began.</summary>
    public bool IsInForce => IsInForceOn(Procedure, Began);

    /// <summary>The procedure of a job; null: the register has none of this machine and place.</summary>
    public static ProcedureInUse? Of(DutyFrame duty) =>
        Of(duty.Record, duty.Context.Procedures, duty.Job.Days.Began)
        ?? (duty.Procedure is { } written ? new(written, duty.Job.Days.Began) : null);

    /// <summary>The procedure of a record among those of a register; null: it has none of this machine and place.</summary>
    /// <param name="record">The record.</param>
    /// <param name="procedures">The register.</param>
    /// <param name="began">The day on which the job began.</param>
    public static ProcedureInUse? Of(
        ServiceRecord record,
        IEnumerable<Procedure> procedures,
        DateOnly began
    ) =>
        procedures
            .Where(procedure =>
                procedure.Place == record.Place && procedure.Machines.Contains(record.Machine.Id)
            )
            .OrderByDescending(procedure => IsInForceOn(procedure, began))
            .ThenByDescending(procedure => !(procedure.From > began))
            .ThenByDescending(procedure => procedure.Until ?? DateOnly.MaxValue)
            .ThenByDescending(procedure => procedure.From ?? DateOnly.MinValue)
            .ThenBy(procedure => procedure.Id)
            .FirstOrDefault()
            is { } used
            ? new(used, began)
            : null;

    private static bool IsInForceOn(Procedure procedure, DateOnly day) =>
        !(procedure.From > day) && !(procedure.Until < day);
}
