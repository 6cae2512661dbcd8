using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>A look from outside, from the words of docs/verdicts.md: the machine stopped and at rest, and no more.</summary>
internal static class LookRow
{
    public const string Rule = "work-protected";

    public static bool Is(Story story) =>
        story.Record.HandsInBladeZone == false
        && story.Record.Place == WorkPlace.OnMachine
        && story.Record.Tasks.All(task => task is ServiceTask.Inspect or ServiceTask.DailyCheck)
        && story.Record.Timeline.All(IsOfTheSeat)
        && story
            .Record.Units.SelectMany(unit => unit.Entries)
            .All(entry =>
                entry is Reading { Observed: Observation.Seen, Quantity: not MeasuredQuantity.BearingPlay }
            );

    public static Possible Judge(Story story)
    {
        var looks = story
            .Record.Units.SelectMany(unit => unit.Entries)
            .Select(entry => entry.At is { } at ? Story.MomentOf(at, story.Context) : null)
            .OfType<Moment>()
            .Concat(story.Steps.Where(IsWork).Select(step => step.At))
            .ToList();
        var spells = story.Spells.ToList();
        bool stopped = false;
        bool good = false;
        Moment? since = null;
        bool ran = false;
        foreach (var step in story.Steps)
        {
            if (step.Kind == TimelineEventKind.MachineStarted)
            {
                stopped = false;
                since ??= step.At;
            }
            else if (step.Kind == TimelineEventKind.MachineShutDown)
            {
                stopped = true;
                ran |= since is { } start && looks.Exists(look => start < look && look < step.At);
                since = null;
            }
            else if (step.Kind == TimelineEventKind.SeenAtRest && stopped)
            {
                good |= looks.TrueForAll(look => step.At <= look);
            }
        }

        ran |= since is { } open && looks.Exists(look => open < look);
        if (spells.Count > 0 && story.Steps.Any(step => step.Kind == TimelineEventKind.MachineStarted))
        {
            return Possible.Judged;
        }

        return good && !ran ? Possible.Met
            : story.IsOpen && !ran ? Possible.Unproven
            : Possible.NotMet;
    }

    private static bool IsWork(Step step) =>
        step.Kind is TimelineEventKind.WorkStarted or TimelineEventKind.WorkStopped;

    private static bool IsOfTheSeat(TimelineEvent entry) =>
        entry.Kind
            is TimelineEventKind.AffectedNotifiedBefore
                or TimelineEventKind.EnergyReviewed
                or TimelineEventKind.DriveDisengaged
                or TimelineEventKind.UnitsLowered
                or TimelineEventKind.ParkingBrakeSet
                or TimelineEventKind.MachineShutDown
                or TimelineEventKind.KeyRemoved
                or TimelineEventKind.SeenAtRest
                or TimelineEventKind.WorkStarted
                or TimelineEventKind.WorkStopped
                or TimelineEventKind.AreaInspected
                or TimelineEventKind.PeopleClearChecked
                or TimelineEventKind.RemovalNotified
                or TimelineEventKind.SafetyDefectFound
                or TimelineEventKind.MachineStarted
                or TimelineEventKind.CutOutsProved
                or TimelineEventKind.HandedBack;
}
