using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>One run of the machine for a test, for positioning, or for a task that needs the reel to turn.</summary>
/// <param name="Duty">The job.</param>
/// <param name="Start">The entry that energises it.</param>
/// <param name="End">The entry that ends it: the test ended, or the machine shut down; null: none is shown.</param>
internal sealed record TestRun(DutyFrame Duty, OrderedEvent Start, OrderedEvent? End)
{
    /// <summary>From its start until its end.</summary>
    public TimelineInterval Interval => new(Start.Place(), End?.Place());

    /// <summary>The tasks on the running reel entered in it.</summary>
    public ImmutableArray<OrderedEvent> Performed =>
        [
            .. Duty
                .Reading.Of(TimelineEventKind.EnergisedTaskPerformed)
                .Where(entry => Interval.Contains(entry.Place())),
        ];

    /// <summary>
    /// The task it is for: as its entries say; lapping where they do not and the record is about lapping; else null, a test.
    /// </summary>
    public ServiceTask? Task =>
        Start.Event.Task
        ?? Performed.Select(entry => entry.Event.Task).FirstOrDefault(task => task is not null)
        ?? (
            Performed.IsEmpty ? null
            : RunNotShown.IsLapping(Duty) ? ServiceTask.Lap
            : null
        );

    /// <summary>A task was done on the running reel, so measures took the place of the lock.</summary>
    public bool IsTask => Start.Event.Task is not null || !Performed.IsEmpty;

    /// <summary>The last end of work before it, or null.</summary>
    public OrderedEvent? WorkStopped =>
        Duty.Reading.EndsOfWork.Where(stop => stop.Place() < Start.Place()).MaxBy(stop => stop.Place());

    /// <summary>Locks or tags had been on before it, or hands in: there was something to clear.</summary>
    public bool FollowsControl =>
        WorkStopped is not null
        || Duty.Reading.Works.Any(work => work.Start.Place() < Start.Place())
        || Duty.Reading.Devices.Any(device => device.Applied.Place() < Start.Place());

    /// <summary>Every run, in judged order.</summary>
    public static ImmutableArray<TestRun> Of(DutyFrame duty)
    {
        var starts = duty.Reading.Of(TimelineEventKind.TestEnergised);
        var ends = duty.Reading.Of(TimelineEventKind.TestEnded, TimelineEventKind.MachineShutDown);
        return
        [
            .. starts.Select(start => new TestRun(
                duty,
                start,
                ends.FirstOrDefault(end => end.Place() > start.Place())
            )),
        ];
    }

    /// <summary>Told as a time: <c>the test run at 09:05</c>.</summary>
    public string Named => $"the test run at {Duty.Words.Time(Start)}";
}
