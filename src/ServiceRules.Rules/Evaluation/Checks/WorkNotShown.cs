using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>On a finished job: hands-on work whose start or end the record does not show.</summary>
internal static class WorkNotShown
{
    public static IEnumerable<TimelineFault> Faults(TimelineReading reading)
    {
        if (reading.IsOpen)
        {
            yield break;
        }

        foreach (var person in reading.HandsIn.Where(person => reading.FirstWorkOf(person) is null))
        {
            yield return new(
                Verdict.Unproven,
                FindingReason.StepMissing,
                $"The record does not show when {person} worked.",
                [],
                "Enter when hands-on work started and stopped, as a late entry."
            );
        }

        if (reading.HandsIn.IsEmpty)
        {
            yield return new(
                Verdict.Unproven,
                FindingReason.StepMissing,
                "The record names nobody who did the work.",
                [],
                "Name who performed and who assisted."
            );
        }

        foreach (var work in reading.Works.Where(work => work.Stop is null))
        {
            yield return new(
                Verdict.Unproven,
                FindingReason.StepMissing,
                $"The record does not show when {work.Person} stopped work.",
                [work.Start],
                "Enter when hands-on work stopped, as a late entry."
            );
        }
    }
}
