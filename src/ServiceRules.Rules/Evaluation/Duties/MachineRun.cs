using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// One run of the machine: for a test, for positioning, for a task that needs the reel to turn, or simply started. Of a
/// test whose end alone is entered nothing is known but that it ran until then.
/// </summary>
/// <param name="Duty">The job.</param>
/// <param name="Start">The entry that begins it; where none is shown, the one that ends it.</param>
/// <param name="End">The entry that ends it: the test ended, or the machine shut down; null: none is shown.</param>
internal sealed record MachineRun(DutyFrame Duty, OrderedEvent Start, OrderedEvent? End)
{
    /// <summary>Entered as a test, and not as the machine being started.</summary>
    public bool IsTest => Start.IsTestRun();

    /// <summary>The record shows its end, and not how it began.</summary>
    public bool IsStartMissing => Start.Event.Kind == TimelineEventKind.TestEnded;

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

    /// <summary>Hands were in before it and went in again after it: no start before the job, nor after it.</summary>
    public bool IsWithinJob =>
        Duty.Reading.Works.Any(work => work.Start.Place() < Start.Place())
        && Duty.Reading.Works.Any(work => work.Start.Place() > Start.Place());

    /// <summary>A part of the job, and not how the machine came or left.</summary>
    public bool IsOfJob => IsTest || IsTask || IsWithinJob;

    /// <summary>Neither a test nor a task: the machine was started.</summary>
    public bool IsPlain => !IsTest && !IsTask;

    /// <summary>The last end of work before it, or null.</summary>
    public OrderedEvent? WorkStopped =>
        Duty.Reading.EndsOfWork.Where(stop => stop.Place() < Start.Place()).MaxBy(stop => stop.Place());

    /// <summary>Locks or tags had been on before it, or hands in: there was something to clear.</summary>
    public bool FollowsControl =>
        WorkStopped is not null
        || Duty.Reading.Works.Any(work => work.Start.Place() < Start.Place())
        || Duty.Reading.Devices.Any(device => device.Applied.Place() < Start.Place());

    /// <summary>Every run, in judged order.</summary>
    public static ImmutableArray<MachineRun> Of(DutyFrame duty)
    {
        var ends = duty.Reading.Of(TimelineEventKind.TestEnded, TimelineEventKind.MachineShutDown);
        return
        [
            .. duty.Reading.Energisings.Select(start => new MachineRun(
                duty,
                start,
                start.Event.Kind == TimelineEventKind.TestEnded
                    ? start
                    : ends.FirstOrDefault(end => end.Place() > start.Place())
            )),
        ];
    }

    /// <summary>Those that are a part of the job.</summary>
    public static ImmutableArray<MachineRun> OfJob(DutyFrame duty) => [.. Of(duty).Where(run => run.IsOfJob)];

    /// <summary>Those entered as a test.</summary>
    public static ImmutableArray<MachineRun> Tests(DutyFrame duty) => [.. Of(duty).Where(run => run.IsTest)];

    /// <summary>What it is called without its time.</summary>
    public string Word => IsTest ? "test run" : "run";

    /// <summary>Told as a time: <c>the test run at 09:05</c>.</summary>
    public string Named =>
        IsStartMissing
            ? $"the test run that ended at {Duty.Words.Time(Start)}"
            : $"the {Word} at {Duty.Words.Time(Start)}";
}
