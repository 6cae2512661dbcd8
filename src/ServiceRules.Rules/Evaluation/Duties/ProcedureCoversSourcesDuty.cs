using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>The procedure covers every source that the machine has, with a step to isolate or release it and one to prove it.</summary>
internal static class ProcedureCoversSourcesDuty
{
    private const string Machine = "/machine";
    private const string Act = "Complete the procedure, have it approved, and train whoever uses it.";

    public static CheckOutcome Judge(DutyFrame duty)
    {
        if (ProcedureInUse.Of(duty) is not { Procedure: var procedure })
        {
            return TimelineOutcome.NotApplicable(
                "There is no procedure to hold against the sources of the machine."
            );
        }

        var named = TimelineWords.Named(procedure.Sources);
        return RegisterOutcome.Of(
            [
                NotListed(duty, procedure),
                NoIsolation(duty, procedure),
                NoProof(procedure),
                Milder(duty, procedure),
                NotKnown(duty, procedure),
            ],
            procedure.Sources.IsEmpty
                ? $"Procedure {procedure.Id} names no source, and the machine has none."
                : $"Procedure {procedure.Id} covers {named}, each with how it is isolated or released and how it is proven dead.",
            [Machine]
        );
    }

    private static RegisterFault? NotListed(DutyFrame duty, Procedure procedure)
    {
        var missing = duty
            .Sources.Where(source => source is { InMachine: true, InProcedure: false })
            .Select(source => source.Source)
            .Where(source => !procedure.Sources.Any(listed => listed.Id == source.Id))
            .ToList();
        return missing.Count == 0
            ? null
            : RegisterFault.Wrong(
                FindingReason.StepMissing,
                $"Procedure {procedure.Id} does not name {TimelineWords.Named(missing)}, which {duty.Record.Machine.Id} has.",
                Act,
                Machine
            );
    }

    // A source that the register of machines can switch off needs the step that does so; any other, one that releases it.
    private static RegisterFault? NoIsolation(DutyFrame duty, Procedure procedure)
    {
        var isolatable = duty.Record.Place == WorkPlace.OnMachine ? duty.Machine?.Sources ?? [] : [];
        var without = procedure
            .Sources.Where(source =>
                isolatable.Any(known => known.Id == source.Id && known.Isolator is not null)
                    ? source.Isolator is null
                    : source.Isolator is null && string.IsNullOrWhiteSpace(source.Release)
            )
            .ToList();
        return without.Count == 0
            ? null
            : RegisterFault.Wrong(
                FindingReason.StepMissing,
                $"Procedure {procedure.Id} does not say how to isolate or release {TimelineWords.Named(without)}.",
                Act,
                Machine
            );
    }

    private static RegisterFault? NoProof(Procedure procedure)
    {
        var without = procedure.Sources.Where(source => string.IsNullOrWhiteSpace(source.Proof)).ToList();
        return without.Count == 0
            ? null
            : RegisterFault.Wrong(
                FindingReason.StepMissing,
                $"Procedure {procedure.Id} does not say how {TimelineWords.Named(without)} is proven dead.",
                Act,
                Machine
            );
    }

    // The record is held against the stricter of the two; whoever goes by the procedure is told less.
    private static RegisterFault? Milder(DutyFrame duty, Procedure procedure)
    {
        var registered = duty.Record.Place == WorkPlace.OnMachine ? duty.Machine?.Sources ?? [] : [];
        var told = (
            from source in procedure.Sources
            join known in registered on source.Id equals known.Id
            from what in Unsaid(source, known)
            select $"that {what}"
        ).ToList();
        return told.Count == 0
            ? null
            : RegisterFault.Wrong(
                FindingReason.StepMissing,
                $"Procedure {procedure.Id} does not say what the register of {duty.Record.Machine.Id} does: {TimelineWords.List(told)}.",
                Act,
                Machine
            );
    }

    private static IEnumerable<string> Unsaid(EnergySource written, EnergySource known)
    {
        var name = TimelineWords.Named(known);
        if (
            known is { Isolator: { } isolator, Lockable: true }
            && written is { Isolator: not null, Lockable: false }
        )
        {
            yield return $"the {isolator.Replace('_', ' ')} of {name} takes a lock";
        }

        if (known.Stored && !written.Stored)
        {
            yield return $"the energy of {name} stays stored";
        }

        if (known.Reaccumulates && !written.Reaccumulates)
        {
            yield return $"{name} can build up again";
        }
        else if (known.RecheckMinutes is { } minutes && !(written.RecheckMinutes <= minutes))
        {
            yield return $"{name} is checked again every {minutes} minutes";
        }

        if (known.RecheckLimit is { } limit && !(written.RecheckLimit <= limit))
        {
            yield return $"{name} may read no more than {limit}";
        }
    }

    private static RegisterFault? NotKnown(DutyFrame duty, Procedure procedure) =>
        duty.Record.Place == WorkPlace.OnBench || duty.Machine is not null
            ? null
            : RegisterFault.Unsaid(
                $"The register of machines does not have {duty.Record.Machine.Id}, so nothing shows whether procedure {procedure.Id} names all that it has.",
                "Enter the machine and its sources of energy in the register.",
                Machine
            );
}
