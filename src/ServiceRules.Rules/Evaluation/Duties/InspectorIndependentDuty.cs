using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Whoever inspected the procedure is authorised, and is none of those who use it.</summary>
internal static class InspectorIndependentDuty
{
    public static CheckOutcome Judge(DutyFrame duty) =>
        Inspections.Judge(duty, (procedure, inspection) => Judge(duty, procedure, inspection));

    private static CheckOutcome Judge(DutyFrame duty, Procedure procedure, ProcedureInspection inspection)
    {
        const string act = "Have the procedure inspected by an authorised person who does not use it.";
        if (inspection.Inspector is not { } inspector)
        {
            return RegisterOutcome.Of(
                RegisterFault.Unsaid(
                    $"The certificate does not say who inspected procedure {procedure.Id}.",
                    "Enter the inspector in the certificate.",
                    Inspections.Machine
                )
            );
        }

        RegisterFault? uses = inspection.Users.Contains(inspector)
            ? RegisterFault.Wrong(
                FindingReason.WrongPerson,
                $"{inspector} inspected procedure {procedure.Id} and is one of those who use it.",
                act,
                Inspections.Machine
            )
            : null;
        RegisterFault? unsaid = inspection.Users.IsEmpty
            ? RegisterFault.Unsaid(
                $"The certificate does not say who uses procedure {procedure.Id}, so nothing shows that {inspector} does not.",
                "Enter in the certificate who uses the procedure.",
                Inspections.Machine
            )
            : null;
        RegisterFault? standing = duty.PersonOf(inspector, inspection.On) switch
        {
            null => RegisterFault.Unsaid(
                $"The register of people does not have {inspector}, who inspected procedure {procedure.Id}.",
                "Enter the inspector in the register.",
                Inspections.Machine
            ),
            { Authorised: false } => RegisterFault.Wrong(
                FindingReason.WrongPerson,
                $"{inspector} inspected procedure {procedure.Id} and is not authorised.",
                act,
                Inspections.Machine
            ),
            _ => null,
        };
        return RegisterOutcome.Of(
            [uses, standing, unsaid],
            $"{inspector} inspected procedure {procedure.Id}, is authorised, and is none of those who use it.",
            [Inspections.Machine]
        );
    }
}
