using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Every tag that was put on says what it warns of.</summary>
internal static class TagWarnsDuty
{
    public static CheckOutcome Judge(DutyFrame duty)
    {
        var hangings = JobPeople.TagHangings(duty);
        return hangings.IsEmpty
            ? TimelineOutcome.NotApplicable("The record shows no tag put on.")
            : RegisterOutcome.Of(
                hangings.Select(hanging => Fault(duty, hanging)),
                "The register has a legend for every tag that was put on.",
                hangings.Evidence()
            );
    }

    private static RegisterFault? Fault(DutyFrame duty, OrderedEvent hanging) =>
        duty.LockOf(hanging.Event.Lock!.Value) switch
        {
            null => RegisterFault.Unsaid(
                $"The register does not have {JobPeople.Named(hanging)}, so nothing shows what it warns of.",
                "Enter the tag and its legend in the register.",
                hanging.Pointer()
            ),
            { Legend: var legend } when string.IsNullOrWhiteSpace(legend) => RegisterFault.Wrong(
                FindingReason.StepMissing,
                $"{Wording.Sentence(JobPeople.Named(hanging))} has no legend in the register: a tag says not to start, open, close, energise or operate.",
                "Use tags with a legend, and enter it in the register.",
                hanging.Pointer()
            ),
            _ => null,
        };
}
