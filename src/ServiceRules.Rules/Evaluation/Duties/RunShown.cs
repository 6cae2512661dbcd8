using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>One run of the machine during a job as the record shows it: who ran it, what kept people from it, who said so.</summary>
/// <param name="Start">The entry that begins it; where none is shown, the one that ends it.</param>
/// <param name="IsStartShown">Whether the record shows how it began.</param>
/// <param name="End">The entry that ends it; null: none is shown, or it is not its own.</param>
/// <param name="For">What it was for.</param>
/// <param name="Performers">Who did the task on the running reel; empty: no task.</param>
/// <param name="Measures">The entries of measures that were said for it, in judged order.</param>
/// <param name="AtTheStop">Who stood at the stop by all that is shown.</param>
/// <param name="IsStopSaid">Whether a second person at the stop is said at all.</param>
/// <param name="IsStopNamed">Whether the measures name who stood there.</param>
public sealed record RunShown(
    OrderedEvent Start,
    bool IsStartShown,
    OrderedEvent? End,
    string For,
    ImmutableArray<Id<Participant>> Performers,
    ImmutableArray<OrderedEvent> Measures,
    ImmutableArray<Id<Participant>> AtTheStop,
    bool IsStopSaid,
    bool IsStopNamed
)
{
    /// <summary>Every run that is a part of the job, in judged order.</summary>
    /// <param name="job">The job.</param>
    public static ImmutableArray<RunShown> Of(JobFrame job)
    {
        ArgumentNullException.ThrowIfNull(job);
        var duty = DutyFrame.Of(job);
        return [.. MachineRun.OfJob(duty).Select(run => Of(duty, run))];
    }

    private static RunShown Of(DutyFrame duty, MachineRun run)
    {
        var people = PeopleAtRun.Of(duty, run);
        ImmutableArray<OrderedEvent> before =
        [
            .. duty
                .Reading.Of(TimelineEventKind.AlternativeMeasuresRecorded)
                .Where(entry => entry.Place() < run.Start.Place()),
        ];
        var held = MeasuresForRun.Held(duty, run.Start, before, EnergisedTaskDuties.Asked(duty, run.Start));
        return new(
            run.Start,
            !run.IsStartMissing,
            people.Ended,
            run.Task is { } task ? TaskWords.Of(task)
                : run.IsTask ? "a task on the running reel"
                : run.IsTest ? "a test"
                : "not said",
            people.Performers,
            before.IsEmpty ? [] : MeasuresHeld.Own(duty, run, before),
            held?.AtTheStop ?? [],
            held?.IsStopSaid ?? false,
            held?.IsStopNamed ?? false
        );
    }
}
