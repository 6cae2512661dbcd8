using ServiceRules.Domain.Timeline;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>
/// What a lock cannot have gone through, and starts that cannot have been, each walked through by hand. No row of the table
/// speaks of it; a doubt of this kind is unproven as the others are.
/// </summary>
internal static class HistoryRows
{
    private static readonly string[] Drives = ["engine_start", "battery_drive", "mains_cord"];

    /// <summary>On before off, off before on again, off before the machine is handed back.</summary>
    public static Possible InTurn(Story story)
    {
        bool surely = false;
        bool perhaps = false;
        foreach (
            var device in story
                .Steps.Where(s => s.Device is not null && (s.IsDeviceOn || s.IsDeviceOff))
                .GroupBy(s => s.Device)
        )
        {
            var steps = device.ToList();
            bool oneSource = steps.Select(s => s.Event.Source).Distinct().Count() == 1;
            surely |= steps[0].IsDeviceOff;
            surely |= steps[^1].IsDeviceOn && IsHandedBackAfter(story, steps[^1]) && oneSource;
            for (int at = 1; at < steps.Count; at++)
            {
                var (before, then) = (steps[at - 1], steps[at]);
                bool same = before.IsDeviceOn == then.IsDeviceOn;
                surely |= same && oneSource && before.By == then.By && MuchHappened(story, before, then);
                perhaps |= same;
            }

            perhaps |= !oneSource || steps.Exists(s => s.IsDeviceOn && IsHandedBackAfter(story, s));
        }

        // With a lock on the box, the key of a job lock is in it.
        perhaps |= story.Steps.Any(off =>
            off.IsDeviceOff
            && story.Lock(off.Device) is { Owner: null, IsTag: false }
            && story.Steps.Any(on => on.IsDeviceOn && on.IsOnBox && on.Before(off))
        );
        return CredibilityRows.Flag(surely, perhaps);
    }

    /// <summary>No start with a lock on, and none with the drive's isolator off and nothing to say that it was put on.</summary>
    public static Possible Started(Story story)
    {
        bool surely = false;
        bool perhaps = false;
        foreach (var start in story.Steps.Where(IsStart))
        {
            foreach (var on in story.Steps.Where(s => s.IsDeviceOn && s.Before(start) && !s.IsOnBox))
            {
                bool counts =
                    on.Kind == TimelineEventKind.LockApplied
                    && on.Event.Position != IsolatorPosition.On
                    && (start.Kind == TimelineEventKind.MachineStarted || Drives.Any(on.IsOf));
                bool untouched = !story.Steps.Any(s => s != on && s.Device == on.Device && s.Before(start));
                surely |= counts && untouched;
                perhaps |= counts;
            }

            foreach (var source in story.Isolatable.Where(s => s.Lockable && Drives.Contains(s.Id.Text)))
            {
                string id = source.Id.Text;
                var off = story.Steps.LastOrDefault(s => s.IsIsolation && s.IsOf(id) && s.Before(start));
                if (off is null)
                {
                    continue;
                }

                bool alone = !story.Steps.Any(s => s.Before(start) && s.IsOf(id) && IsOfHolding(s));
                bool first = !story.Steps.Any(s => IsStart(s) && s.Before(start));
                surely |= alone && first && story.KnowsSources;
                perhaps = true;
            }
        }

        return CredibilityRows.Flag(surely, perhaps);
    }

    private static bool IsOfHolding(Step step) =>
        step.IsDeviceOn
        || step.IsDeviceOff
        || step.Kind is TimelineEventKind.PlugRemoved or TimelineEventKind.PlugControlConfirmed
        || step.Event.Position == IsolatorPosition.On;

    private static bool IsStart(Step step) =>
        step.Kind is TimelineEventKind.TestEnergised or TimelineEventKind.MachineStarted;

    private static bool IsHandedBackAfter(Story story, Step step) =>
        story.Steps.Any(s => s.Kind == TimelineEventKind.HandedBack && step.Before(s));

    private static bool MuchHappened(Story story, Step from, Step until) =>
        story.Steps.Any(s =>
            (s.Kind == TimelineEventKind.WorkStarted || IsStart(s)) && from.Before(s) && s.Before(until)
        );
}
