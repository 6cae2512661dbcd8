using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Every lock and tag that was put on is in the register, for lockout and nothing else.</summary>
internal static class DeviceForLockoutOnlyDuty
{
    public static CheckOutcome Judge(DutyFrame duty)
    {
        var hangings = JobPeople.Hangings(duty);
        return hangings.IsEmpty
            ? TimelineOutcome.NotApplicable("The record shows no lock or tag put on.")
            : RegisterOutcome.Of(
                hangings.Select(hanging => Fault(duty, hanging)),
                "Every lock and tag that was put on is in the register, for lockout alone.",
                hangings.Evidence()
            );
    }

    private static RegisterFault? Fault(DutyFrame duty, OrderedEvent hanging) =>
        duty.LockOf(hanging.Event.Lock!.Value) switch
        {
            null => RegisterFault.Wrong(
                FindingReason.NotRegistered,
                $"The register does not have {JobPeople.Named(hanging)}, which was put on.",
                "Use only devices that are in the register; enter this one, or take it out of use.",
                hanging.Pointer()
            ),
            { Use: var use }
                when !string.Equals(use.Trim(), RegisteredLock.Lockout, StringComparison.OrdinalIgnoreCase) =>
                RegisterFault.Wrong(
                    FindingReason.WrongPerson,
                    $"{Wording.Sentence(JobPeople.Named(hanging))} was put on and is registered for {use}, not for lockout.",
                    "Hang only devices that are kept for lockout.",
                    hanging.Pointer()
                ),
            _ => null,
        };
}
