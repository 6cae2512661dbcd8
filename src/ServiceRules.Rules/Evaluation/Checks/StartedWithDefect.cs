using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// The machine run between the moment at which a safety defect is found and the one at which it is put right. A test run
/// may be needed to find it or to prove it mended, and is left alone; one in which the cut-outs are proved before it is put
/// right may have been one, and is a question.
/// </summary>
internal static class StartedWithDefect
{
    private const string Act =
        "Keep the machine shut down until the defect is put right; a run to find it, or to prove it mended, is a test run and entered as one.";

    /// <summary>A defect that is open for a time.</summary>
    /// <param name="What">What was found and when, after <c>the record shows</c>.</param>
    /// <param name="Found">When it was found.</param>
    /// <param name="Closed">When it was put right; null: not in this record.</param>
    /// <param name="Entries">The entries that say so.</param>
    /// <param name="Beside">The entries of the bench log that say so.</param>
    /// <param name="IsOutOfOrder">Their time contradicts the order in which they stand.</param>
    public sealed record Open(
        string What,
        TimelinePlace Found,
        TimelinePlace? Closed,
        ImmutableArray<OrderedEvent> Entries,
        ImmutableArray<string> Beside,
        bool IsOutOfOrder = false
    );

    public static IEnumerable<TimelineFault> Faults(DutyFrame duty, IEnumerable<Open> defects) =>
        from defect in defects.Concat(OfGuards(duty.Reading))
        let fault = Fault(duty, defect)
        where fault is not null
        select fault;

    // The first run tells it; one that surely used the machine before one that may have been to prove it.
    private static TimelineFault? Fault(DutyFrame duty, Open defect) =>
        MachineRun
            .Of(duty)
            .Where(run =>
                run.Start.Place() > defect.Found
                && !(defect.Closed < run.Start.Place())
                && !(run.IsTest && !run.IsTask)
            )
            .Select(run => Told(duty, defect, run))
            .OrderBy(fault => fault.Verdict == Verdict.NotMet ? 0 : 1)
            .FirstOrDefault();

    private static TimelineFault Told(DutyFrame duty, Open defect, MachineRun run)
    {
        var words = duty.Words;
        var start = run.Start;
        var proved = duty
            .Reading.Of(TimelineEventKind.CutOutsProved)
            .FirstOrDefault(entry =>
                run.IsPlain && run.Interval.Contains(entry.Place()) && entry.Place() < defect.Closed
            );
        var what = run.IsTask ? "the reel run for a task" : EventWords.Done(start.Event.Kind);
        var doubt =
            defect.IsOutOfOrder ? "; its time contradicts the order of the bench log"
            : proved is not null
                ? $"; the cut-outs proved at {words.Time(proved)} may say that it was to prove it mended"
            : string.Empty;
        var told = new TimelineFault(
            doubt.Length == 0 ? Verdict.NotMet : Verdict.Unproven,
            defect.IsOutOfOrder ? FindingReason.NotCredible
                : proved is null ? FindingReason.WrongOrder
                : FindingReason.StepMissing,
            $"The record shows {defect.What}, and {what} {words.AtBy(start)}, with that not put right by then{doubt}.",
            [.. defect.Entries.Append(start).Concat(proved is null ? [] : [proved])],
            Act,
            defect.Beside
        );
        return start.Place().IsInTheMinuteOf(defect.Closed) || start.Place().IsInTheMinuteOf(defect.Found)
            ? LeadUpOutcome.Untold(told)
            : told;
    }

    /// <summary>Guards that a timed entry of the bench log finds faulty, until one that has them seen sound or a guard fitted.</summary>
    private static IEnumerable<Open> OfGuards(TimelineReading reading)
    {
        var contradicted = BenchTimes.OutOfOrder(reading);
        var units = reading.Frame.Record.Units;
        for (var unit = 0; unit < units.Length; unit++)
        {
            var entries = units[unit].Entries;
            for (var index = 0; index < entries.Length; index++)
            {
                if (ConditionOf(entries[index]) is not Condition.Faulty || entries[index].At is not { } at)
                {
                    continue;
                }

                var until = UntilMended(reading, entries, index);
                if (until is { IsUntold: true })
                {
                    continue;
                }

                var found = AfterItsMinute(reading, at);
                yield return new(
                    $"the guards of {units[unit].Id} found faulty at {reading.Words.Time(at)}",
                    found,
                    Earlier(
                        until.At,
                        reading
                            .Of(TimelineEventKind.SafetyDefectClosed)
                            .FirstOrDefault(entry => entry.Place() > found)
                            ?.Place()
                    ),
                    [],
                    [Pointers.Entry(unit, index)],
                    contradicted.Contains(Pointers.Entry(unit, index))
                );
            }
        }
    }

    // Where the entry that mends them has no time, how long they were faulty is not known.
    private static (TimelinePlace? At, bool IsUntold) UntilMended(
        TimelineReading reading,
        ImmutableArray<BenchEntry> entries,
        int after
    )
    {
        var mended = entries
            .Skip(after + 1)
            .FirstOrDefault(entry =>
                entry is PartFitted { Part: PartKind.Guard } || ConditionOf(entry) is Condition.Sound
            );
        return mended is null ? (null, false)
            : mended.At is { } at ? (AfterItsMinute(reading, at), false)
            : (null, true);
    }

    private static Condition? ConditionOf(BenchEntry entry) =>
        entry is Reading { Quantity: MeasuredQuantity.Guards, Observed: Observation.Seen seen }
            ? seen.Condition
            : null;

    // Times of the bench log are often noted to the minute: after every entry of it.
    private static TimelinePlace AfterItsMinute(TimelineReading reading, RecordedTime at) =>
        new(JudgedOrder.MomentOf(at, reading.Frame.Context.Zone), int.MaxValue);

    private static TimelinePlace? Earlier(TimelinePlace? one, TimelinePlace? other) =>
        one is null || other < one ? other ?? one : one;
}
