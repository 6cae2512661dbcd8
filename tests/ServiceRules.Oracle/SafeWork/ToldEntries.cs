using ServiceRules.Domain.Timeline;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>What the entries of a record come to before they are a story: work taken up again, tests that must have begun.</summary>
internal static class ToldEntries
{
    /// <summary>
    /// Who takes up work again is at work. Not so an owner told of a device that another took off, as long as they say themselves
    /// when their work began, or everybody's work is over and no test goes on.
    /// </summary>
    public static List<(TimelineEvent Event, Moment At)> WithHandsBack(
        List<(TimelineEvent Event, Moment At)> told
    )
    {
        List<(TimelineEvent Event, Moment At)> judged = [];
        foreach (var (entry, at) in told)
        {
            bool isBegun =
                entry.Kind == TimelineEventKind.ResumedWork
                && !IsAtWork(judged, entry.Actor.Text)
                && !IsOnlyBack(judged, entry, told.Skip(judged.Count + 1).Select(t => t.Event).ToList());
            judged.Add((isBegun ? entry with { Kind = TimelineEventKind.WorkStarted } : entry, at));
        }

        return judged;
    }

    private static bool IsAtWork(List<(TimelineEvent Event, Moment At)> before, string who) =>
        before.LastOrDefault(t => t.Event.Actor.Text == who && IsWork(t.Event)).Event
            is { Kind: TimelineEventKind.WorkStarted };

    private static bool IsWork(TimelineEvent e) =>
        e.Kind is TimelineEventKind.WorkStarted or TimelineEventKind.WorkStopped;

    private static bool IsOnlyBack(
        List<(TimelineEvent Event, Moment At)> before,
        TimelineEvent back,
        List<TimelineEvent> after
    )
    {
        bool lost = false;
        for (int off = 0; off < before.Count; off++)
        {
            var taken = before[off].Event;
            if (
                taken.Kind is not (TimelineEventKind.LockRemoved or TimelineEventKind.TagRemoved)
                || taken.Actor == back.Actor
            )
            {
                continue;
            }

            var hung = before
                .Take(off)
                .LastOrDefault(t =>
                    t.Event.Kind is TimelineEventKind.LockApplied or TimelineEventKind.TagApplied
                    && t.Event.Lock == taken.Lock
                )
                .Event;
            lost |= hung is null ? taken.Exception is not null : hung.Actor == back.Actor;
        }

        var next = after.FirstOrDefault(e => e.Actor == back.Actor && IsWork(e));
        bool isOver =
            !after.Exists(IsWork)
            && before.All(t => !IsAtWork(before, t.Event.Actor.Text))
            && before
                .LastOrDefault(t =>
                    t.Event.Kind
                        is TimelineEventKind.TestEnergised
                            or TimelineEventKind.TestEnded
                            or TimelineEventKind.MachineShutDown
                )
                .Event
                is not { Kind: TimelineEventKind.TestEnergised };
        return lost && (next is null ? isOver : next.Kind == TimelineEventKind.WorkStarted);
    }

    /// <summary>
    /// A test that ended had begun. Where nothing says when, it is taken to have begun at that very moment, which is the
    /// least that can be said of it.
    /// </summary>
    public static List<Step> WithStartsOfTests(List<(TimelineEvent Event, Moment At)> told)
    {
        List<Step> steps = [];
        foreach (var (entry, at) in told)
        {
            if (entry.Kind == TimelineEventKind.TestEnded && !HasBegun(steps))
            {
                var start = entry with { Kind = TimelineEventKind.TestEnergised };
                steps.Add(new(start, at, steps.Count) { IsAssumed = true });
            }

            steps.Add(new(entry, at, steps.Count));
        }

        return steps;
    }

    /// <summary>Started and not yet ended; or stopped with nobody's hands in since; or ended by an entry just made.</summary>
    private static bool HasBegun(List<Step> before)
    {
        int begun = before.FindLastIndex(s =>
            s.Kind is TimelineEventKind.TestEnergised or TimelineEventKind.MachineStarted
        );
        int ended = before.FindLastIndex(s => s.Kind == TimelineEventKind.TestEnded);
        int down = before.FindIndex(Math.Max(begun, 0), s => s.Kind == TimelineEventKind.MachineShutDown);
        bool handsSince = down >= 0 && before.Skip(down).Any(s => s.Kind == TimelineEventKind.WorkStarted);
        bool sameEnd =
            ended >= 0 && before.Skip(ended + 1).All(s => s.Kind == TimelineEventKind.MachineShutDown);
        return sameEnd || (begun > ended && !handsSince);
    }

    /// <summary>What switches electricity is off when it is open: "closed" is a position of valves.</summary>
    public static TimelineEvent Told(TimelineEvent entry)
    {
        bool isElectric =
            entry.Source is SourceReference.One one
            && one.Source.Text is "engine_start" or "battery_drive" or "mains_cord";
        return entry.Position == IsolatorPosition.Closed && isElectric
            ? entry with
            {
                Position = IsolatorPosition.On,
            }
            : entry;
    }
}
