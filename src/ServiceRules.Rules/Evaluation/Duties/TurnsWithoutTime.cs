using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// Turns of an adjuster without a time, on a job in which the reel is run: the order of the log tells of some that they were
/// before the run.
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
        for (var next = entry + 1; next < log.Length; next++)
        {
            // The first time that follows decides, in favour or against.
            if (log[next].At is { } at)
            {
                return JudgedOrder.MomentOf(at, duty.Context.Zone) <= runs[0].Start.Moment;
            }
        }

        return IsLastTest(duty, runs) && IsReadAfter(log, entry);
    }

    /// <summary>Whether a turn would still be told from a test after all work: a reading by hand follows it in the log.</summary>
    public static bool IsReadAfter(ImmutableArray<BenchEntry> log, int entry) =>
        log.Skip(entry + 1).Any(next => next is Reading && BenchActs.Of(next) is not null);

    // After the last hands came out, a reading by hand is none of the run; of a task on the running reel it may be.
    private static bool IsLastTest(DutyFrame duty, ImmutableArray<MachineRun> runs) =>
        runs.All(run => run is { IsTest: true, IsTask: false, IsStartMissing: false })
        && !RunNotShown.IsLapping(duty)
        && duty.Reading.EndOfWork() is { } end
        && end.Place() < runs[0].Start.Place()
        && duty.Reading.AreCredible([end, runs[0].Start]);
}
