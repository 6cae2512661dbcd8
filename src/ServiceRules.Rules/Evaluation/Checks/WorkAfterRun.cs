using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>Hands going in again after the machine ran in the middle of the job.</summary>
/// <param name="Ran">The entry that started it.</param>
/// <param name="Work">The first work after it and before it ran again; null: still to come, on an open job.</param>
internal sealed record WorkAfterRun(OrderedEvent Ran, WorkInterval? Work)
{
    /// <summary>
    /// Each run after the first work of whoever the step is asked of, with the work that follows it; none for a step that
    /// a run does not undo, nor for isolation and proof, which the duty after a test run asks for source by source.
    /// </summary>
    public static IEnumerable<WorkAfterRun> Of(TimelineReading reading, RequiredStep step)
    {
        var works = reading
            .Works.Where(work => step.Person is not { } person || work.Person == person)
            .ToList();
        if (works.Count == 0)
        {
            yield break;
        }

        var runs = reading
            .Energisings.Where(ran =>
                ran.Place() > works[0].Start.Place()
                && step.Check.Events.All(kind => UndoneByRun.MustBeDoneAgain(reading, ran, step, kind))
            )
            .ToList();
        for (var index = 0; index < runs.Count; index++)
        {
            var from = runs[index].Place();
            var isLast = index + 1 == runs.Count;
            var next = works.Find(work =>
                work.Start.Place() > from && (isLast || work.Start.Place() < runs[index + 1].Place())
            );
            if (next is not null || (isLast && IsStillToCome(reading, runs[index])))
            {
                yield return new(runs[index], next);
            }
        }
    }

    // After a test hands go in again; after a start for handing back they do not.
    private static bool IsStillToCome(TimelineReading reading, OrderedEvent ran) =>
        reading.IsOpen
        && ran.IsTestRun()
        && !reading.AnyWork.Intervals.Any(work => work.Until is null || work.Until > ran.Place())
        && reading
            .Of(TimelineEventKind.TestEnded, TimelineEventKind.MachineShutDown)
            .Any(end => end.Place() >= ran.Place())
        && !reading.Of(TimelineEventKind.HandedBack).Any(back => back.Place() > ran.Place());
}
