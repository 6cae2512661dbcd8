using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>A safety defect put right: by the work that is shown, or by the very hands of whoever says so. From the words of docs/verdicts.md.</summary>
internal static class PutRight
{
    /// <summary>Whether the entry is all there is of it, so that it was hands at that moment.</summary>
    public static bool IsByHand(Story story, Step step)
    {
        if (step.Kind != TimelineEventKind.SafetyDefectClosed)
        {
            return false;
        }

        int found = FoundAt(story, step);
        return !story.Spells.Any(spell => PutsItRight(story, spell, found, step))
            && !story.Steps.Any(s =>
                s.Kind == TimelineEventKind.GuardsRefitted
                && IsSince(story, s, found)
                && s.At <= step.At
                && IsOutOfRuns(story, s)
            )
            && !story.Touches.Any(touch =>
                touch.Entry is not Reading
                && touch.At <= step.At
                && (touch.After < 0 || !story.RunsAfter(story.Steps[touch.After]))
                && (found < 0 || story.Steps[found].At <= touch.At)
            );
    }

    /// <summary>Whether it was found and put right with the machine running all the time.</summary>
    public static bool IsInOneRun(Story story, Step step)
    {
        int found = FoundAt(story, step);
        return found >= 0
            && story.RunsAfter(story.Steps[found])
            && !story.Steps.Any(s =>
                s.Place > found
                && s.Before(step)
                && s.Kind is TimelineEventKind.TestEnded or TimelineEventKind.MachineShutDown
            );
    }

    // The first that is still open is the one that is put right.
    private static int FoundAt(Story story, Step step)
    {
        List<int> open = [];
        foreach (var one in story.Steps.Where(s => s.Before(step)))
        {
            if (one.Kind == TimelineEventKind.SafetyDefectFound)
            {
                open.Add(one.Place);
            }
            else if (one.Kind == TimelineEventKind.SafetyDefectClosed && open.Count > 0)
            {
                open.RemoveAt(0);
            }
        }

        return open.Count > 0 ? open[0] : -1;
    }

    private static bool PutsItRight(Story story, Spell spell, int found, Step step) =>
        (spell.Person == step.By || spell.Stop?.At <= step.At)
        && spell.End > found
        && spell.Start.Before(step)
        && story.Steps.Any(s =>
            s.Place >= Math.Max(found, spell.Start.Place)
            && s.Place < Math.Min(spell.End, step.Place)
            && !story.RunsAfter(s)
        );

    private static bool IsSince(Story story, Step step, int found) =>
        found < 0 || story.Steps[found].At <= step.At;

    private static bool IsOutOfRuns(Story story, Step step) => !story.RunsAfter(step);
}
