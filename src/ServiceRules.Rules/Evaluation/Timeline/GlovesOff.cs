using System.Collections.Frozen;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// Runs of the machine whose measures keep gloves from the turning reel: whoever wore them has them off then, and on again only once
/// that is entered. What is recorded once holds for each test or task that follows, and for a plain start where it stands just before.
/// </summary>
internal static class GlovesOff
{
    /// <summary>The entries that begin such runs, by their index.</summary>
    public static FrozenSet<int> Runs(TimelineReading reading)
    {
        var named = reading
            .Of(TimelineEventKind.AlternativeMeasuresRecorded)
            .Where(entry => entry.Event.Measures.Contains(ProtectiveMeasure.NoGlovesNearTurningReel))
            .Places()
            .ToList();
        if (named.Count == 0)
        {
            return [];
        }

        var tasks = reading.Of(TimelineEventKind.EnergisedTaskPerformed).Places().ToList();
        var found = new List<int>();
        TimelinePlace? before = null;
        foreach (var ran in reading.Energisings)
        {
            var place = ran.Place();
            var isJustBefore = named.Exists(entry => entry < place && !(entry < before));
            if (isJustBefore || (named[0] < place && (ran.IsTestRun() || IsTask(reading, ran, tasks))))
            {
                found.Add(ran.Index);
            }

            before = place;
        }

        return found.ToFrozenSet();
    }

    private static bool IsTask(TimelineReading reading, OrderedEvent ran, List<TimelinePlace> tasks) =>
        ran.Event.Task is not null
        || (reading.Running.StretchAt(ran.Place()) is { } run && tasks.Exists(run.Contains));
}
