using System.Collections.Immutable;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// Nobody had hands in between the machine being energised for a test and its end, nor made a step there, or after any
/// other start, that only a hand at the unit can make. A task on the running reel is told as such and is no hands-on work.
/// </summary>
internal static class NoHandsWhileEnergisedDuty
{
    private const string Act =
        "Nobody puts hands in while the machine is energised: stop, isolate, lock and verify first.";

    public static CheckOutcome Judge(DutyFrame duty)
    {
        var runs = MachineRun.Of(duty).Where(run => !run.IsPlain).ToImmutableArray();
        var untold = RunNotShown.Faults(duty);
        List<TimelineFault> shown =
        [
            .. HandsInRun.Of(duty).Select(hands => hands.Fault(duty.Words, Act)),
            .. HandsInRun.Pressure(duty),
            .. HandsInRun.BeforeShutdown(duty),
        ];
        if (runs.IsEmpty && untold.IsEmpty && shown.Count == 0)
        {
            return TimelineOutcome.NotApplicable("The record shows no test run.");
        }

        List<TimelineFault> faults =
        [
            .. runs.SelectMany(run =>
                duty.Reading.Works.Where(work => !run.Interval.Overlap(work.Interval).IsEmpty)
                    .Select(work =>
                        run.Interval.Overlap(work.Interval).IsWithinAMinute()
                            ? LeadUpOutcome.Untold(AtWork(duty, run, work))
                            : AtWork(duty, run, work)
                    )
                    .Concat(
                        duty.Reading.MayHaveBeenIn(run.Start.Place()).Select(stop => Stopped(duty, run, stop))
                    )
            ),
            .. shown,
            .. runs.Select(run => Unbounded(duty, run)).OfType<TimelineFault>(),
            .. untold,
        ];
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

    /// <summary>A run of which only one end is shown: whose hands were in during the rest, nothing shows.</summary>
    private static TimelineFault? Unbounded(DutyFrame duty, MachineRun run)
    {
        if (run.IsStartMissing)
        {
            var hadHandsIn = duty.Reading.Works.Any(work =>
                work.Stop is not null && work.Interval.Contains(run.Start.Place())
            );
            return new(
                hadHandsIn || !duty.Reading.IsOpen ? Verdict.NotMet : Verdict.Unproven,
                FindingReason.StepMissing,
                $"The record shows {EventWords.Done(run.Start.Event.Kind)} {duty.Words.AtBy(run.Start)}, and does not show when the machine was energised for it, nor that everybody's hands were out by then.",
                [run.Start],
                "Enter when the machine was energised, as a late entry."
            );
        }

        return run.End is null && !duty.Reading.IsOpen
            ? new(
                Verdict.Unproven,
                FindingReason.StepMissing,
                $"The record shows {run.Named}, and does not show when it ended.",
                [run.Start],
                "Enter when the run ended, as a late entry."
            )
            : null;
    }

    private static TimelineFault AtWork(DutyFrame duty, MachineRun run, WorkInterval work)
    {
        var words = duty.Words;
        var isAfter = run.Start.Place() > work.Start.Place();
        // Without an end of work hands stay in, unless somebody saw people clear, or that person was at a lock or the key.
        var isOpen = isAfter && work.Stop is null;
        var started = isAfter
            ? duty
                .Reading.Of(TimelineEventKind.WorkStarted)
                .FirstOrDefault(entry =>
                    isOpen && entry.Event.Actor == work.Person && run.Interval.Contains(entry.Place())
                )
            : work.Start;
        var seenOut = isOpen && started is null ? SeenOut(duty, run, work) : null;
        return seenOut is not null
            ? new(
                Verdict.Unproven,
                FindingReason.StepMissing,
                $"The record shows {run.Named}, and does not show that {work.Person}, at work from {words.Time(work.Start)}, had stopped by then; {EventWords.Done(seenOut.Event.Kind)} {words.AtBy(seenOut)} speaks for it.",
                [run.Start, work.Start, seenOut],
                "Enter when hands-on work stopped, as a late entry."
            )
            : new(
                Verdict.NotMet,
                FindingReason.Unprotected,
                started is null
                    ? $"The record shows {run.Named} energised while {work.Person}, at work from {words.Time(work.Start)}{(isOpen ? " with no end entered" : string.Empty)}, had hands in."
                    : $"The record shows {work.Person} starting work at {words.Time(started)} during {run.Named}{(run.End is null ? ", whose end it does not show" : string.Empty)}.",
                [run.Start, started ?? work.Start],
                Act
            );
    }

    private static OrderedEvent? SeenOut(DutyFrame duty, MachineRun run, WorkInterval work) =>
        duty.Reading.Events.LastOrDefault(entry =>
            entry.Place() > work.Start.Place()
            && entry.Place() <= run.Start.Place()
            && (
                entry.Event.Kind is TimelineEventKind.PeopleClearChecked or TimelineEventKind.ExposureChecked
                || (
                    entry.Event.Actor == work.Person
                    && entry.Event.Kind
                        is TimelineEventKind.LockRemoved
                            or TimelineEventKind.TagRemoved
                            or TimelineEventKind.TestEnergised
                )
            )
        );

    private static TimelineFault Stopped(DutyFrame duty, MachineRun run, OrderedEvent stop) =>
        run.Interval.Contains(stop.Place())
            ? new(
                Verdict.NotMet,
                FindingReason.Unprotected,
                $"The record shows {stop.Event.Actor} stopping work at {duty.Words.Time(stop)} during {run.Named}, and does not show when it started.",
                [run.Start, stop],
                Act
            )
            : new(
                Verdict.Unproven,
                FindingReason.StepMissing,
                $"The record shows {stop.Event.Actor} stopping work at {duty.Words.Time(stop)}, and does not show that it started only after {run.Named}.",
                [run.Start, stop],
                "Enter when hands-on work started, as a late entry."
            );
}
