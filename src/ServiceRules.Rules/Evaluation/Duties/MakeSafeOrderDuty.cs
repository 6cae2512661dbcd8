using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// Gone through, shut down, isolated, locked, released, verified: in this order, before the first work and again after
/// every run of the machine. A step that is missing is told by its own duty.
/// </summary>
internal static class MakeSafeOrderDuty
{
    public static CheckOutcome Judge(DutyFrame duty)
    {
        if (SourcesKnown.Lacking(duty) is { } lacking)
        {
            return lacking;
        }

        if (
            duty.Reading is { IsOpen: false, Works.IsEmpty: true }
            && MakeSafeStretch.Steps(duty) is { IsEmpty: false } shown
        )
        {
            return TimelineOutcome.Of(
                Verdict.Unproven,
                FindingReason.StepMissing,
                "The record shows make-safe steps, but not when hands-on work started, so not in which order they led up to it.",
                shown.Evidence(),
                "Enter when hands-on work started and stopped, as a late entry."
            );
        }

        var stretches = MakeSafeStretch.Of(duty).ToList();
        var steps = stretches.SelectMany(stretch => stretch.Entries).ToList();
        if (steps.Select(step => step.Event.Kind).Distinct().Count() < 2)
        {
            return TimelineOutcome.Of(
                Verdict.Unproven,
                duty.Reading.IsOpen ? FindingReason.InProgress : FindingReason.StepMissing,
                "The record shows too few make-safe steps before work to tell their order.",
                steps.Evidence(),
                "Enter the steps as they are done."
            );
        }

        var faults = stretches.SelectMany(stretch => Faults(stretch, duty.Words)).ToList();
        return faults.Count > 0
            ? TimelineOutcome.OfFaults(faults)
            : TimelineOutcome.Met(
                duty.Reading,
                "The record shows the make-safe steps in their order.",
                steps
            );
    }

    private static IEnumerable<TimelineFault> Faults(MakeSafeStretch stretch, TimelineWords words) =>
        from inversion in stretch.Inversions()
        let told = $"The record shows {EventWords.Done(inversion.Then.Event.Kind)} at {words.Time(inversion.Then)}, before it shows {EventWords.Done(inversion.First.Event.Kind)} at {words.Time(inversion.First)}"
            + (inversion.Source is { } source ? $" ({TimelineWords.Named(source)})." : ".")
        select stretch.Work is null
            ? new TimelineFault(
                Verdict.Unproven,
                FindingReason.InProgress,
                told,
                [inversion.Then, inversion.First],
                $"Do it again in order before touching the unit: {EventWords.Done(inversion.Then.Event.Kind)}."
            )
            : new TimelineFault(
                Verdict.NotMet,
                FindingReason.WrongOrder,
                told,
                [inversion.Then, inversion.First],
                "Go through the order of the steps with whoever did the work."
            );
}
