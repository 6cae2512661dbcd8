using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>Hands in while the machine runs for a test, or after it was started.</summary>
internal static class WorkWhileRunning
{
    public static IEnumerable<TimelineFault> Faults(TimelineReading reading, TimelineWords words)
    {
        foreach (var work in reading.Works)
        {
            foreach (var start in reading.Energisings)
            {
                var running = reading.Running.StretchAt(start.Place())!.Value;
                var both = running.Overlap(work.Interval);
                if (both.IsEmpty || running.From != start.Place())
                {
                    continue;
                }

                // Without an end of work, a later start may only mean that the end was not entered.
                if (work.Stop is null && start.Place() > work.Start.Place())
                {
                    continue;
                }

                yield return new(
                    Verdict.NotMet,
                    FindingReason.Unprotected,
                    start.Place() > work.Start.Place()
                        ? $"The record shows {EventWords.Done(start.Event.Kind)} at {words.Time(start)} while {work.Person} was at work."
                        : $"The record shows {work.Person} starting work at {words.Time(work.Start)} while the machine ran ({EventWords.Done(start.Event.Kind)} at {words.Time(start)}).",
                    [start, work.Start],
                    "Nobody puts hands in while the machine runs: stop, isolate, lock and verify first."
                );
            }
        }
    }
}
