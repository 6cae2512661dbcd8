using System.Collections.Immutable;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// After every run in the middle of the job the machine was shut down again before hands went in: that a test ended does
/// not say so. With every source proven dead and everything seen at rest since, it was off whatever was entered of it, and
/// only how it was stopped is not shown.
/// </summary>
internal static class ShutDownAfterRunDuty
{
    private const string Act =
        "After every run shut the machine down, and enter it, before isolators are turned off and hands go in.";

    public static CheckOutcome Judge(DutyFrame duty)
    {
        var restsOn = new List<OrderedEvent>();
        var faults = new List<TimelineFault>();
        var shown = new List<string>();
        foreach (var (run, hands) in HandsAfter(duty))
        {
            var down = duty
                .Reading.Of(TimelineEventKind.MachineShutDown)
                .Where(entry => entry.Place() > run.Start.Place())
                .ToImmutableArray();
            if (down.FirstOrDefault(entry => hands is null || entry.Place() < hands.Place()) is { } inTime)
            {
                restsOn.Add(inTime);
                shown.Add(run.Named);
                continue;
            }

            faults.Add(hands is null ? NotYet(run) : Missing(run, hands, down));
        }

        return faults.Count > 0 ? TimelineOutcome.OfFaults(faults)
            : shown.Count == 0
                ? TimelineOutcome.NotApplicable(
                    "The record shows no hands going in again after a run of the machine."
                )
            : TimelineOutcome.Met(
                duty.Reading,
                $"The record shows {EventWords.Done(TimelineEventKind.MachineShutDown)} again after {TimelineWords.List(shown)}, before hands went in.",
                restsOn
            );
    }

    /// <summary>Each run with the first hands after it and before the next; on an open job null: still to come.</summary>
    private static IEnumerable<(MachineRun Run, OrderedEvent? Hands)> HandsAfter(DutyFrame duty)
    {
        var reading = duty.Reading;
        var runs = MachineRun.OfJob(duty);
        for (var index = 0; index < runs.Length; index++)
        {
            var run = runs[index];
            var from = run.Start.Place();
            if (!reading.Works.Any(work => work.Start.Place() < from))
            {
                continue;
            }

            TimelinePlace? until = index + 1 < runs.Length ? runs[index + 1].Start.Place() : null;
            var hands = reading
                .Works.Select(work => work.Start)
                .Concat(reading.StopsWithoutStart)
                .Where(entry => entry.Place() > from && (until is null || entry.Place() < until))
                .MinBy(entry => entry.Place());
            var isStillToCome =
                hands is null
                && until is null
                && reading.IsOpen
                && run is { End: not null, IsPlain: false }
                && !reading.Of(TimelineEventKind.HandedBack).Any(back => back.Place() > from);
            if (hands is not null || isStillToCome)
            {
                yield return (run, hands);
            }
        }
    }

    private static TimelineFault NotYet(MachineRun run) =>
        TimelineFault.NotYet(
            EventWords.Done(TimelineEventKind.MachineShutDown),
            Act,
            [run.Start],
            by: "Do it before hands go in again",
            of: $"since {run.Named}"
        );

    private static TimelineFault Missing(
        MachineRun run,
        OrderedEvent hands,
        ImmutableArray<OrderedEvent> down
    )
    {
        var words = run.Duty.Words;
        var what = EventWords.Done(TimelineEventKind.MachineShutDown);
        var work = $"{EventWords.Done(hands.Event.Kind)} {words.AtBy(hands)}";
        if (IsOffByProof(run, hands))
        {
            return new(
                Verdict.Unproven,
                FindingReason.StepMissing,
                $"The record does not show {what} again between {run.Named} and {work}; it shows everything proven dead and seen at rest by then, and not how it was stopped.",
                [run.Start, hands],
                "Enter when the machine was shut down, as a late entry."
            );
        }

        var late = down.FirstOrDefault(entry => entry.Place().IsInTheMinuteOf(hands.Place()));
        var told = new TimelineFault(
            Verdict.NotMet,
            FindingReason.StepMissing,
            $"The record does not show {what} again between {run.Named} and {work}.",
            late is null ? [run.Start, hands] : [run.Start, hands, late],
            Act
        );
        return late is null ? told : LeadUpOutcome.Untold(told);
    }

    private static bool IsOffByProof(MachineRun run, OrderedEvent hands)
    {
        var duty = run.Duty;
        var sources = duty.SourcesAt(hands.Place()).ToImmutableArray();
        return run.End is { } end
            && sources.Any(source => source.HasIsolator)
            && sources.All(source => duty.ReadingOf(source).Proven.Contains(hands.Place()))
            && duty.Reading.Of(TimelineEventKind.SeenAtRest)
                .Any(seen => seen.Place() > end.Place() && seen.Place() < hands.Place());
    }
}
