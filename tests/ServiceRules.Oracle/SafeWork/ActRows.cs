using ServiceRules.Domain.Timeline;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>Who isolates and releases, and what stands still sooner than it can, from the words of the requirements.</summary>
internal static class ActRows
{
    /// <summary>
    /// Each person who isolates, releases, verifies, takes a job lock off or starts the machine to return it is authorised and
    /// trained then. Of whoever works, that is asked elsewhere.
    /// </summary>
    public static Possible IsolatedByAuthorised(Story story)
    {
        var returned = story.Steps.LastOrDefault(s => s.Kind == TimelineEventKind.HandedBack);
        if (returned is not null && story.Spells.Any(spell => returned.Before(spell.Start)))
        {
            returned = null;
        }

        var sum = Possible.NotApplicable;
        foreach (
            var own in story
                .Entered.Where(s => returned is null || s.Before(returned))
                .Where(s => IsAsked(story, s, returned))
                .GroupBy(s => s.By)
        )
        {
            var may = Possible.Met;
            foreach (var step in own)
            {
                may = may.And(RunRows.Trained(story, step, step.Kind != TimelineEventKind.MachineStarted));
            }

            if (may == Possible.Met || !Works(story, own.Key))
            {
                sum = sum.And(may);
            }
        }

        return sum;
    }

    /// <summary>A look takes two seconds; what runs down, as long as the procedure says.</summary>
    public static Possible AtRestInTime(Story story)
    {
        bool surely = false;
        bool perhaps = story.Procedure?.RunDownSeconds is not null;
        foreach (
            var seen in story.Entered.Where(s =>
                s.Kind == TimelineEventKind.SeenAtRest && s.Event.Mark == EntryMark.AtTheTime
            )
        )
        {
            var stop = story.Entered.LastOrDefault(s =>
                s.Kind is TimelineEventKind.MachineShutDown or TimelineEventKind.TestEnded && s.Before(seen)
            );
            if (stop is null)
            {
                continue;
            }

            bool isToTheMinute = IsToTheMinute(stop) && IsToTheMinute(seen);
            surely |= !isToTheMinute && seen.At - stop.At < TimeSpan.FromSeconds(2);
        }

        return CredibilityRows.Flag(surely, surely || perhaps);
    }

    /// <summary>Whoever keeps the key is somebody whom the register has, or somebody who works.</summary>
    public static Possible KeyKept(Story story, Possible asStep) =>
        story.Context.People.Length > 0
        && story.Entered.Any(s =>
            s.Kind == TimelineEventKind.KeyRemoved && story.Person(s.By) is null && !Works(story, s.By)
        )
            ? asStep | Possible.Unproven
            : asStep;

    private static bool IsAsked(Story story, Step step, Step? returned) =>
        step.Kind switch
        {
            TimelineEventKind.IsolatorOperated
            or TimelineEventKind.PlugRemoved
            or TimelineEventKind.StoredEnergyReleased
            or TimelineEventKind.IsolationVerified => true,
            TimelineEventKind.LockRemoved => story.Lock(step.Device) is { Owner: null, IsTag: false },
            TimelineEventKind.MachineStarted => returned is not null
                && story.Spells.Count > 0
                && story.Spells.All(spell => spell.Start.Before(step))
                && !RunRows.StartedForATask(story).Contains(step),
            _ => false,
        };

    private static bool Works(Story story, string person) =>
        story.Workers.Contains(person)
        || story.Touches.Any(touch => touch.By == person)
        || story.SaidToWork.Contains(person)
        || story.Steps.Any(s =>
            s.By == person
            && s.Kind is TimelineEventKind.BlockageClearedByHand or TimelineEventKind.BlockageClearedWithTool
        );

    private static bool IsToTheMinute(Step step) => step.At.Utc.Ticks % TimeSpan.TicksPerMinute == 0;
}
