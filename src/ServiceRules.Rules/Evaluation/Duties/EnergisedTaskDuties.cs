using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// Work that needs the reel to turn: approved in the procedure, and its measures recorded before the machine is energised.
/// A lock that was on before or after excuses none of it.
/// </summary>
internal static class EnergisedTaskDuties
{
    private const string Approve =
        "Have the safety officer approve the task on the running reel in the procedure, with its measures.";

    private const string SayMeasures =
        "Say before the reel is run how people are kept clear: long-handled brush, guards, who holds the stop, no gloves near the turning reel.";

    /// <summary>The procedure lists the task, and somebody approved it.</summary>
    public static CheckOutcome Approved(DutyFrame duty)
    {
        var tasks = Tasks(duty);
        if (tasks.IsEmpty)
        {
            return NoTask();
        }

        if (duty.Procedure is not { } procedure)
        {
            return TimelineOutcome.NoProcedure(duty.Job);
        }

        var faults =
            from task in tasks
            let listed = Listed(duty, task)
            where listed is not { ApprovedBy: not null }
            select new TimelineFault(
                task is null ? Verdict.Unproven : Verdict.NotMet,
                task is null ? FindingReason.StepMissing : FindingReason.ProcedureNotFollowed,
                task is null ? "The record shows a task on the running reel, and does not say which."
                    : listed is null
                        ? $"The record shows {TaskWords.Of(task.Value)} on the running reel; procedure {procedure.Id} does not list it as a task on the live machine."
                    : $"The record shows {TaskWords.Of(task.Value)} on the running reel; procedure {procedure.Id} lists it, and nobody has approved it.",
                Entries(duty),
                Approve
            );
        var found = faults.ToList();
        return found.Count > 0
            ? TimelineOutcome.OfFaults(found)
            : TimelineOutcome.Met(
                duty.Reading,
                $"Procedure {procedure.Id} lists {TimelineWords.List(tasks.OfType<ServiceTask>().Select(TaskWords.Of))} as approved on the running reel by {TimelineWords.List(tasks.Select(task => Listed(duty, task)!.ApprovedBy!.Value.Text).Distinct(StringComparer.Ordinal))}.",
                Entries(duty)
            );
    }

    /// <summary>
    /// What the procedure asks for was recorded before the machine was energised for the task; before a test, some measures.
    /// </summary>
    public static CheckOutcome MeasuresFirst(DutyFrame duty)
    {
        var tests = MachineRun
            .Tests(duty)
            .Where(run => !run.IsTask)
            .Select(run => run.Start)
            .ToImmutableArray();
        var toTime = TurnsWithoutTime.ToTime(duty);
        if (Tasks(duty).IsEmpty && tests.IsEmpty)
        {
            return toTime is null ? NoTask() : TimelineOutcome.OfFaults([toTime]);
        }

        // A test is a run as well: nobody is locked out of it, and people are kept clear all the same.
        ImmutableArray<OrderedEvent> starts = [.. Starts(duty).Concat(tests).Distinct()];
        var recorded = duty.Reading.Of(TimelineEventKind.AlternativeMeasuresRecorded);
        var untold = RunNotShown.Faults(duty);
        if (!untold.IsEmpty)
        {
            return TimelineOutcome.OfFaults([
                .. starts.SelectMany(start => MeasureFaults(duty, start, recorded)),
                .. untold,
            ]);
        }

        if (starts.IsEmpty)
        {
            return recorded.IsEmpty ? NothingRecorded(duty, toTime)
                : toTime is not null ? TimelineOutcome.OfFaults([toTime])
                : RecordedOnly(duty, recorded);
        }

        var faults = starts.SelectMany(start => MeasureFaults(duty, start, recorded)).ToList();
        var held = starts
            .Select(start => MeasuresForRun.Held(duty, start, Before(start, recorded), Asked(duty, start)))
            .OfType<MeasuresHeld>()
            .ToList();
        var outcome = faults.Count > 0 ? TimelineOutcome.OfFaults(faults) : MeasuresMet(duty, recorded, held);
        return outcome with
        {
            Notices =
            [
                .. outcome
                    .Notices.Concat(held.SelectMany(one => one.Notices))
                    .Distinct(StringComparer.Ordinal),
            ],
        };
    }

    private static CheckOutcome MeasuresMet(
        DutyFrame duty,
        ImmutableArray<OrderedEvent> recorded,
        List<MeasuresHeld> held
    )
    {
        var there = held.SelectMany(one => one.AtTheStop)
            .Select(one => one.Text)
            .Distinct(StringComparer.Ordinal);
        var stop = there.Any() ? $", with {TimelineWords.List(there)} at the stop" : string.Empty;
        return TimelineOutcome.Met(
            duty.Reading,
            $"The record shows {EventWords.Done(TimelineEventKind.AlternativeMeasuresRecorded)} {duty.Words.AtBy(recorded[0])}, before the reel was run{stop}.",
            recorded
        );
    }

    /// <summary>The task as the procedure in force lists it, or null.</summary>
    public static EnergisedTask? Listed(DutyFrame duty, ServiceTask? task) =>
        task is null ? null : duty.Procedure?.EnergisedTasks.FirstOrDefault(listed => listed.Task == task);

    /// <summary>The tasks on the running reel that the job had: null among them, where an entry does not say which.</summary>
    private static ImmutableArray<ServiceTask?> Tasks(DutyFrame duty)
    {
        var runs = MachineRun.Of(duty).Where(run => run.IsTask).ToImmutableArray();
        var alone = duty
            .Reading.Of(TimelineEventKind.EnergisedTaskPerformed)
            .Where(entry => !runs.Any(run => run.Interval.Contains(entry.Place())))
            .Select(entry => entry.Event.Task ?? (RunNotShown.IsLapping(duty) ? ServiceTask.Lap : null));
        var asked = RunNotShown.IsLapping(duty) ? (IEnumerable<ServiceTask?>)[ServiceTask.Lap] : [];
        return [.. runs.Select(run => run.Task).Concat(alone).Concat(asked).Distinct()];
    }

    /// <summary>Where a task begins: its run is energised; or, where no run is shown, the entry that tells of it.</summary>
    private static ImmutableArray<OrderedEvent> Starts(DutyFrame duty)
    {
        var all = MachineRun.OfJob(duty);
        var runs = all.Where(run => run.IsTask).ToImmutableArray();
        if (runs.IsEmpty && RunNotShown.IsLapping(duty))
        {
            // Lapping is done on a turning reel: where no entry tells the runs apart, each may be one for it.
            runs = all;
        }

        var alone = duty
            .Reading.Of(TimelineEventKind.EnergisedTaskPerformed)
            .Where(entry => !runs.Any(run => run.Interval.Contains(entry.Place())));
        return [.. runs.Select(run => run.Start).Concat(alone)];
    }

    private static CheckOutcome NothingRecorded(DutyFrame duty, TimelineFault? toTime)
    {
        var what = EventWords.Done(TimelineEventKind.AlternativeMeasuresRecorded);
        return duty.Reading.IsOpen
            ? TimelineOutcome.OfFaults([
                TimelineFault.NotYet(
                    $"{what}, {ToPutInPlace(duty)}",
                    SayMeasures,
                    by: "Do it before the reel is run"
                ),
                .. toTime is null ? [] : new[] { toTime },
            ])
            : TimelineOutcome.Of(
                Verdict.NotMet,
                FindingReason.StepMissing,
                $"The record does not show {what}.",
                [],
                SayMeasures
            );
    }

    private static string ToPutInPlace(DutyFrame duty)
    {
        var asked = Tasks(duty)
            .SelectMany(task => Listed(duty, task)?.Measures ?? [])
            .Distinct()
            .Select(MeasureWords.Of)
            .ToList();
        return asked.Count > 0
            ? $"as the procedure asks for them: {TimelineWords.List(asked)}{(asked.Contains(MeasureWords.Of(ProtectiveMeasure.SecondPersonAtStopControl)) ? ", who named among the others of the entry" : string.Empty)}"
            : $"one at least that keeps people from what turns: {string.Join(", ", MeasureWords.AgainstTheRun.Select(MeasureWords.Of))}";
    }

    private static CheckOutcome RecordedOnly(DutyFrame duty, ImmutableArray<OrderedEvent> recorded) =>
        TimelineOutcome.Met(
            duty.Reading,
            $"The record shows {EventWords.Done(TimelineEventKind.AlternativeMeasuresRecorded)} {duty.Words.AtBy(recorded[0])}, and no run of the reel.",
            recorded
        );

    private static IEnumerable<TimelineFault> MeasureFaults(
        DutyFrame duty,
        OrderedEvent start,
        ImmutableArray<OrderedEvent> recorded
    )
    {
        var words = duty.Words;
        var ran = $"{EventWords.Done(start.Event.Kind)} at {words.Time(start)}";
        var before = Before(start, recorded);
        if (!before.IsEmpty)
        {
            return MeasuresForRun.Faults(duty, start, before, Asked(duty, start));
        }

        var late = recorded.FirstOrDefault();
        return
        [
            new(
                Verdict.NotMet,
                late is null ? FindingReason.StepMissing : FindingReason.WrongOrder,
                late is null
                    ? $"The record does not show {EventWords.Done(TimelineEventKind.AlternativeMeasuresRecorded)} before it shows {ran}."
                    : $"The record shows {EventWords.Done(TimelineEventKind.AlternativeMeasuresRecorded)} {words.OnlyAt(late, start)} it shows {ran}.",
                late is null ? [start] : [start, late],
                SayMeasures
            ),
        ];
    }

    private static ImmutableArray<OrderedEvent> Before(
        OrderedEvent start,
        ImmutableArray<OrderedEvent> recorded
    ) => [.. recorded.Where(entry => entry.Place() < start.Place())];

    /// <summary>What the procedure asks for the run that an entry begins; empty: nothing.</summary>
    public static ImmutableArray<ProtectiveMeasure> Asked(DutyFrame duty, OrderedEvent start)
    {
        var run = MachineRun.Of(duty).FirstOrDefault(run => run.Start == start);
        var isTest = run is { IsTask: false } && MachineRun.Of(duty).Any(other => other.IsTask);
        var listed = isTest
            ? null
            : Listed(
                duty,
                run?.Task ?? start.Event.Task ?? (RunNotShown.IsLapping(duty) ? ServiceTask.Lap : null)
            );
        return listed?.Measures
            ?? (isTest || run is { IsTask: false } ? duty.Procedure?.TestMeasures ?? [] : []);
    }

    private static ImmutableArray<OrderedEvent> Entries(DutyFrame duty) =>
        duty.Reading.Of(TimelineEventKind.EnergisedTaskPerformed);

    private static CheckOutcome NoTask() =>
        TimelineOutcome.NotApplicable("The record shows no task on the running reel.");
}
