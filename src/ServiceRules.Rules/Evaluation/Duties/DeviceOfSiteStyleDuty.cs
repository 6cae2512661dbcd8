using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Every lock that was put on looks as the site's own do; a tag, where the register says how it looks.</summary>
internal static class DeviceOfSiteStyleDuty
{
    public static CheckOutcome Judge(DutyFrame duty)
    {
        var hangings = JobPeople.Hangings(duty);
        if (hangings.IsEmpty)
        {
            return TimelineOutcome.NotApplicable("The record shows no lock or tag put on.");
        }

        return duty.Context.LockStyle is { } style
            ? RegisterOutcome.Of(
                hangings.Select(hanging => Fault(duty, hanging, style)),
                $"Every device that was put on is of the site's own kind ({style}).",
                hangings.Evidence()
            )
            : RegisterOutcome.Of(
                RegisterFault.Unsaid(
                    "The site does not state how its locks look.",
                    "State in the site's file by what its locks are told from any other.",
                    [.. hangings.Evidence()]
                )
            );
    }

    private static RegisterFault? Fault(DutyFrame duty, OrderedEvent hanging, string style) =>
        duty.LockOf(hanging.Event.Lock!.Value) switch
        {
            { Style: { } its }
                when string.Equals(its.Trim(), style.Trim(), StringComparison.OrdinalIgnoreCase) => null,
            { Style: { } its } => RegisterFault.Wrong(
                FindingReason.Faulty,
                $"{Wording.Sentence(JobPeople.Named(hanging))} is {its}; the site's locks are {style}.",
                "Hang only locks of the site's own kind.",
                hanging.Pointer()
            ),
            _ when hanging.Event.Kind == TimelineEventKind.TagApplied => null,
            _ => RegisterFault.Unsaid(
                $"The register does not say how {JobPeople.Named(hanging)} looks.",
                "Enter the look of the lock in the register.",
                hanging.Pointer()
            ),
        };
}
