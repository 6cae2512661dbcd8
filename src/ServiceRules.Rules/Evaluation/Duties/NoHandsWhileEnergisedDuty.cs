using System.Collections.Immutable;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// Nobody had hands in between the machine being energised for a test and its end. A task on the running reel is told as
/// such and is no hands-on work.
/// </summary>
internal static class NoHandsWhileEnergisedDuty
{
    public static CheckOutcome Judge(DutyFrame duty)
    {
        var runs = TestRun.Of(duty);
        if (runs.IsEmpty)
        {
            return TimelineOutcome.NotApplicable("The record shows no test run.");
        }

        var words = duty.Words;
        var faults = new List<TimelineFault>();
        foreach (var run in runs)
        {
            foreach (var work in duty.Reading.Works)
            {
                // Without an end of work, a later run may only mean that the end was not entered.
                var mayHaveStopped = work.Stop is null && run.Start.Place() > work.Start.Place();
                if (mayHaveStopped || run.Interval.Overlap(work.Interval).IsEmpty)
                {
                    continue;
                }

                faults.Add(
                    new(
                        Verdict.NotMet,
                        FindingReason.Unprotected,
                        run.Start.Place() > work.Start.Place()
                            ? $"The record shows {run.Named} energised while {work.Person}, at work from {words.Time(work.Start)}, had hands in."
                            : $"The record shows {work.Person} starting work at {words.Time(work.Start)} during {run.Named}{(run.End is null ? ", whose end it does not show" : string.Empty)}.",
                        [run.Start, work.Start],
                        "Nobody puts hands in while the machine is energised: stop, isolate, lock and verify first."
                    )
                );
            }
        }

        return faults.Count > 0
            ? TimelineOutcome.OfFaults(faults)
            : TimelineOutcome.Met(
                duty.Reading,
                $"The record shows nobody's hands in during {TimelineWords.List(runs.Select(run => run.Named))}.",
                [
                    .. runs.SelectMany(run => new[] { run.Start, run.End })
                        .OfType<OrderedEvent>()
                        .ToImmutableArray(),
                ]
            );
    }
}
