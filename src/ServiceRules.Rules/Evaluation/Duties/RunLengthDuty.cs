using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// The reel ran for a task no longer at a time than the procedure says. A pause is an end only where the stop that the
/// procedure states in the words of entries is shown in it, or else everything proven dead: runs with nothing of the kind
/// between them are one run, the pauses counted.
/// </summary>
internal static class RunLengthDuty
{
    private const string Act = "Stop between runs as the procedure says.";

    public static CheckOutcome Judge(DutyFrame duty)
    {
        var stretches = Stretches(duty).Where(stretch => stretch.Longest is not null).ToImmutableArray();
        var states =
            RunNotShown.IsLapping(duty)
            && EnergisedTaskDuties.Listed(duty, ServiceTask.Lap) is { LongestMinutes: not null };
        if (stretches.IsEmpty && states && RunNotShown.Faults(duty) is { IsEmpty: false } untold)
        {
            return TimelineOutcome.OfFaults([
                .. untold.Select(fault => fault with { Verdict = Verdict.Unproven }),
            ]);
        }

        if (stretches.IsEmpty)
        {
            return TimelineOutcome.NotApplicable(
                "The record shows no run of the reel for which the procedure states a longest time."
            );
        }

        var faults = stretches.Select(Fault).OfType<TimelineFault>().ToList();
        return faults.Count > 0
            ? TimelineOutcome.OfFaults(faults)
            : TimelineOutcome.Met(
                duty.Reading,
                "The record shows no run of the reel longer than the procedure says.",
                [.. stretches.SelectMany(stretch => stretch.Entries)]
            );
    }

    private static IEnumerable<Stretch> Stretches(DutyFrame duty)
    {
        var together = ImmutableArray.CreateBuilder<MachineRun>();
        foreach (var run in MachineRun.OfJob(duty))
        {
            if (together.Count > 0 && IsStopped(duty, together[^1], run))
            {
                yield return new(together.ToImmutable());
                together.Clear();
            }

            together.Add(run);
        }

        if (together.Count > 0)
        {
            yield return new(together.ToImmutable());
        }
    }

    private static bool IsStopped(DutyFrame duty, MachineRun before, MachineRun next)
    {
        if (before.End is not { } end || end.Place() > next.Start.Place())
        {
            return false;
        }

        var task = EnergisedTaskDuties.Listed(duty, before.Task ?? next.Task);
        return task is not null && AdjusterUntouchedDuty.StopOf(task.Stop) is { IsEmpty: false } stop
            ? stop.All(kind =>
                duty.Reading.Of(kind)
                    .Any(entry => entry.Place() > before.Start.Place() && entry.Place() < next.Start.Place())
            )
            : IsMadeSafe(duty, new(end.Place(), next.Start.Place()));
    }

    private static bool IsMadeSafe(DutyFrame duty, TimelineInterval pause)
    {
        var sources = duty.SourcesAt(pause.From).ToImmutableArray();
        return !sources.IsEmpty
            && sources
                .Aggregate(IntervalSet.Of([pause]), (safe, source) => safe.And(duty.ReadingOf(source).Proven))
                .Intervals.Length > 0;
    }

    private static TimelineFault? Fault(Stretch stretch)
    {
        var words = stretch.Runs[0].Duty.Words;
        var longest = stretch.Longest!.Value;
        var first = stretch.Runs[0].Start;
        var last = stretch.Runs[^1];
        var until = last.End ?? (stretch.Runs.Length > 1 ? last.Start : null);
        var minutes = until is null ? 0 : (until.Moment - first.Moment).TotalMinutes;
        if (until is not null && minutes > longest)
        {
            var pauses = stretch.Runs.Length - 1;
            var without =
                pauses == 0
                    ? string.Empty
                    : $" in {stretch.Runs.Length} runs with no stop between them that the procedure asks for, nor everything made safe,";
            return new(
                Verdict.NotMet,
                FindingReason.ProcedureNotFollowed,
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"The record shows the reel run from {words.Time(first)} until {words.Time(until)},{without} {Math.Ceiling(minutes):0} minutes; the procedure allows {longest} at a time."
                ),
                stretch.Entries,
                Act
            );
        }

        return last.End is not null
            ? null
            : new(
                Verdict.Unproven,
                last.Duty.Reading.IsOpen ? FindingReason.InProgress : FindingReason.StepMissing,
                $"The record does not show when {last.Named} ended; the procedure allows {longest} minutes at a time.",
                [last.Start],
                "Enter when the run ended."
            );
    }

    /// <summary>Runs with no stop between them.</summary>
    private sealed record Stretch(ImmutableArray<MachineRun> Runs)
    {
        /// <summary>The shortest time that the procedure states for a task in it; null: none.</summary>
        public int? Longest =>
            Runs.Where(run => run.IsTask)
                .Select(run => EnergisedTaskDuties.Listed(run.Duty, run.Task)?.LongestMinutes)
                .Min();

        public ImmutableArray<OrderedEvent> Entries =>
            [.. Runs.SelectMany(run => new[] { run.Start, run.End }).OfType<OrderedEvent>().Distinct()];
    }
}
