using ServiceRules.Domain.Site;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>What duties on the certificate of an inspection have in common.</summary>
internal static class Inspections
{
    public const string Machine = "/machine";

    private const string EnterIt = "Enter the certificate of the inspection in the register.";

    /// <summary>
    /// Judges the certificate of the last inspection. Without any inspection there is nothing to judge; with a date alone
    /// nothing is known of it.
    /// </summary>
    public static CheckOutcome Judge(
        DutyFrame duty,
        Func<Procedure, ProcedureInspection, CheckOutcome> certificate
    ) =>
        ProcedureInUse.Of(duty)?.Procedure switch
        {
            null => TimelineOutcome.NotApplicable("There is no procedure to inspect."),
            { Inspection: { } inspection } procedure => certificate(procedure, inspection),
            { LastInspected: { } on } procedure => RegisterOutcome.Of(
                RegisterFault.Unsaid(
                    $"The register says that procedure {procedure.Id} was inspected on {RegisterOutcome.Day(on)}, and has no certificate of it.",
                    EnterIt,
                    Machine
                )
            ),
            _ => TimelineOutcome.NotApplicable(
                "There is no inspection, which is said of the inspection itself."
            ),
        };
}
