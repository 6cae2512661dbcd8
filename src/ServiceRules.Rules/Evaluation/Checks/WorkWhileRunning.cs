using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>Hands in while the machine runs for a test, or after it was started.</summary>
internal static class WorkWhileRunning
{
    private const string Act =
        "Nobody puts hands in while the machine runs: stop, isolate, lock and verify first.";

    public static IEnumerable<TimelineFault> Faults(TimelineReading reading, TimelineWords words)
    {
        foreach (var work in reading.Works)
        {
            foreach (var start in reading.Energisings)
            {
                if (reading.Running.StretchAt(start.Place()) is not { } running)
                {
                    if (AtEndAlone(work, start, words) is { } atEnd)
                    {
                        yield return atEnd;
                    }

                    continue;
                }

                var both = running.Overlap(work.Interval);
                if (both.IsEmpty || running.From != start.Place())
                {
                    continue;
                }

                if (work.Stop is null && start.Place() > work.Start.Place())
                {
                    if (WithoutEnd(reading, work, start, running, words) is { } fault)
                    {
                        yield return fault;
                    }

                    continue;
                }

                var told = new TimelineFault(
                    Verdict.NotMet,
                    FindingReason.Unprotected,
                    start.Place() > work.Start.Place()
                        ? $"The record shows {EventWords.Done(start.Event.Kind)} at {words.Time(start)} while {work.Person} was at work."
                        : $"The record shows {work.Person} starting work at {words.Time(work.Start)} while the machine ran ({EventWords.Done(start.Event.Kind)} at {words.Time(start)}).",
                    [start, work.Start],
                    Act
                );
                // Out and started, or stopped and in, in one printed minute may only stand the wrong way round.
                yield return both.IsWithinAMinute() ? LeadUpOutcome.Untold(told) : told;
            }
        }

        foreach (var stop in reading.StopsWithoutStart)
        {
            if (reading.Running.StretchAt(stop.Place()) is null)
            {
                continue;
            }

            yield return new(
                Verdict.NotMet,
                FindingReason.Unprotected,
                $"The record shows {stop.Event.Actor} stopping work at {words.Time(stop)} while the machine ran, and does not show when it started.",
                [stop],
                Act
            );
        }
    }

    // Of a test run whose end alone is entered, that is the one moment at which it is known to have run.
    private static TimelineFault? AtEndAlone(WorkInterval work, OrderedEvent end, TimelineWords words)
    {
        if (work.Stop is not { } stop || end.Place() < work.Start.Place() || stop.Place() < end.Place())
        {
            return null;
        }

        var told = new TimelineFault(
            Verdict.NotMet,
            FindingReason.Unprotected,
            $"The record shows {EventWords.Done(end.Event.Kind)} at {words.Time(end)} while {work.Person} was at work, and does not show when the machine was energised.",
            [end, work.Start],
            Act
        );
        var isUntold =
            end.Place().IsInTheMinuteOf(work.Start.Place()) || end.Place().IsInTheMinuteOf(stop.Place());
        return isUntold ? LeadUpOutcome.Untold(told) : told;
    }

    // Without an end of work, a later start of the machine may only mean that the end was not entered.
    private static TimelineFault? WithoutEnd(
        TimelineReading reading,
        WorkInterval work,
        OrderedEvent start,
        TimelineInterval running,
        TimelineWords words
    )
    {
        var again = reading
            .Of(TimelineEventKind.WorkStarted)
            .FirstOrDefault(entry => entry.Event.Actor == work.Person && running.Contains(entry.Place()));
        return again is not null
                ? new(
                    Verdict.NotMet,
                    FindingReason.Unprotected,
                    $"The record shows {work.Person} starting work at {words.Time(again)} while the machine ran ({EventWords.Done(start.Event.Kind)} at {words.Time(start)}).",
                    [start, again],
                    Act
                )
            : reading.IsOpen
                ? new(
                    Verdict.Unproven,
                    FindingReason.InProgress,
                    $"The record shows {EventWords.Done(start.Event.Kind)} at {words.Time(start)}, and does not show that {work.Person}, at work from {words.Time(work.Start)}, had stopped by then.",
                    [start, work.Start],
                    "Enter when hands-on work stopped."
                )
            : null;
    }
}
