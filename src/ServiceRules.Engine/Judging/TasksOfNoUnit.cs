using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Evaluation;

namespace ServiceRules.Engine.Judging;

/// <summary>
/// Tasks that the job names and no unit had, since each unit was named with tasks of its own. A job is not called by what nobody
/// did: nothing of it was judged.
/// </summary>
public static class TasksOfNoUnit
{
    /// <summary>The tasks, in their order in the record; none where the record names no unit.</summary>
    /// <param name="frame">What is known from the record.</param>
    public static ImmutableArray<ServiceTask> Of(JobFrame frame)
    {
        ArgumentNullException.ThrowIfNull(frame);
        return frame.Units.IsEmpty
            ? []
            : [.. frame.Record.Tasks.Where(task => !frame.Units.Any(unit => unit.Tasks.Contains(task)))];
    }

    /// <summary>Tasks of the job that this unit, named with tasks of its own, did not have.</summary>
    /// <param name="frame">What is known from the record.</param>
    /// <param name="unit">One of its units.</param>
    public static ImmutableArray<ServiceTask> LeftOutOn(JobFrame frame, UnitFrame unit)
    {
        ArgumentNullException.ThrowIfNull(frame);
        ArgumentNullException.ThrowIfNull(unit);
        return [.. frame.Record.Tasks.Where(task => !unit.Tasks.Contains(task))];
    }
}
