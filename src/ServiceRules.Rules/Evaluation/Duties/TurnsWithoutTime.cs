using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// Turns of an adjuster without a time, on a job in which the reel is run: the order of the log tells of some that they were
/// before the run. Where it does not, the times are asked for before the run.
/// </summary>
internal static class TurnsWithoutTime
{
    /// <summary>Whether the log tells of a turn that it was made before the machine ran in the job.</summary>
    /// <param name="duty">The job.</param>
    /// <param name="runs">The runs of the job, in judged order; at least one.</param>
    /// <param name="unit">Which unit.</param>
    /// <param name="entry">Which of its entries the turn is.</param>
    public static bool IsBeforeRuns(DutyFrame duty, ImmutableArray<MachineRun> runs, int unit, int entry)
    {
        var log = duty.Record.Units[unit].Entries;
        var start = runs[0].Start.Moment;
        // A log in which something before the turn was after the run tells nothing of it by its order.
        if (log.Take(entry).Any(before => MomentOf(duty, before) > start))
        {
            return false;
        }

        // The first time that follows decides, in favour or against.
        return
            log.Skip(entry + 1).Select(next => MomentOf(duty, next)).FirstOrDefault(at => at is not null)
                is { } after
            ? after <= start
            : IsLastTest(duty, runs) && IsReadAfter(log, entry);
    }

    private static Moment? MomentOf(DutyFrame duty, BenchEntry entry) =>
        entry.At is { } at ? JudgedOrder.MomentOf(at, duty.Context.Zone) : null;

    /// <summary>
    /// On a job that goes on, with a run to come: the times that are asked for after it, while somebody still knows them.
    /// Null: none is wanting.
    /// </summary>
    public static TimelineFault? ToTime(DutyFrame duty)
    {
        var isLapping = RunNotShown.IsLapping(duty);
        var isToRun =
            duty.Reading.IsOpen
            && MachineRun.OfJob(duty).IsEmpty
            && (
                isLapping
                || (
                    duty.Claims.IsEmpty
                    && !duty.Reading.Of(TimelineEventKind.AlternativeMeasuresRecorded).IsEmpty
                )
            );
        if (!isToRun)
        {
            return null;
        }

        var untold = ImmutableArray.CreateBuilder<string>();
        for (var unit = 0; unit < duty.Record.Units.Length; unit++)
        {
            var log = duty.Record.Units[unit].Entries;
            for (var entry = 0; entry < log.Length; entry++)
            {
                if (log[entry] is Adjustment { At: null } && (isLapping || !IsReadAfter(log, entry)))
                {
                    untold.Add(Pointers.Entry(unit, entry));
                }
            }
        }

        return untold.Count == 0
            ? null
            : TimelineFault.NotYet(
                "the time of each turn of an adjuster",
                "Enter the time of each turn before the reel is run: afterwards nothing else tells that none was turned while it ran.",
                by: "Enter it before the reel is run"
            ) with
            {
                Beside = untold.ToImmutable(),
            };
    }

    // It would still be told from a test after all work: a reading by hand follows it in the log.
    private static bool IsReadAfter(ImmutableArray<BenchEntry> log, int entry) =>
        log.Skip(entry + 1).Any(next => next is Reading && BenchActs.Of(next) is not null);

    // After the last hands came out, a reading by hand is none of the run; of a task on the running reel it may be.
    private static bool IsLastTest(DutyFrame duty, ImmutableArray<MachineRun> runs) =>
        runs.All(run => run is { IsTest: true, IsTask: false, IsStartMissing: false })
        && !RunNotShown.IsLapping(duty)
        && duty.Reading.EndOfWork() is { } end
        && end.Place() < runs[0].Start.Place()
        && duty.Reading.AreCredible([end, runs[0].Start]);
}
