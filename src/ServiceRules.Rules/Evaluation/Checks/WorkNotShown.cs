using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Hands-on work whose start the record does not show; on a finished job also work whose end it does not show. There it
/// is not met, as any other step that is missing: an entry left out never makes a job better than it was.
/// </summary>
internal static class WorkNotShown
{
    public static IEnumerable<TimelineFault> Faults(TimelineReading reading)
    {
        if (reading.IsOpen)
        {
            foreach (var fault in WithoutStart(reading))
            {
                yield return fault;
            }

            yield break;
        }

        foreach (var person in reading.HandsIn.Where(person => reading.FirstWorkOf(person) is null))
        {
            if (reading.StopsWithoutStart.Any(stop => stop.Event.Actor == person))
            {
                continue;
            }

            yield return new(
                Verdict.NotMet,
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

        foreach (var fault in WithoutStart(reading))
        {
            yield return fault;
        }

        foreach (var work in reading.Works.Where(work => work.Stop is null))
        {
            yield return new(
                Verdict.NotMet,
                FindingReason.StepMissing,
                $"The record does not show when {work.Person} stopped work.",
                [work.Start],
                "Enter when hands-on work stopped, as a late entry."
            );
        }
    }

    private static IEnumerable<TimelineFault> WithoutStart(TimelineReading reading) =>
        reading.StopsWithoutStart.Select(stop => new TimelineFault(
            reading.IsOpen ? Verdict.Unproven : Verdict.NotMet,
            FindingReason.StepMissing,
            $"The record shows that {stop.Event.Actor} stopped work, and does not show when it started.",
            [stop],
            "Enter when hands-on work started, as a late entry."
        ));
}
