using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Application.Demo;

/// <summary>
/// Work that needs the reel to turn: hands out and locks off, measures in their place, and everything locked and proven
/// again before hands go in.
/// </summary>
internal static class TaskRuns
{
    private const int LappingMinutes = 5;

    /// <summary>Lapped on the machine with a long brush, and set again at rest.</summary>
    public static void Lap(UnitLog log, SafetyLog safety)
    {
        log.Unit.SettleForClicks(log.Visit.Chance);
        ClearanceWork.ReadAsFound(log);
        Run(
            log,
            safety,
            ServiceTask.Lap,
            "lapping, reel turning backwards",
            () =>
            {
                log.Lap(LappingMinutes);
                if (log.Visit.Has(SeededFaultKind.AdjusterTurnedInRun))
                {
                    log.Turn(AdjusterKind.Clearance, Side.Both, AdjustDirection.Close, 1);
                    log.Unit.TurnClearance(-1, -1);
                    log.Visit.Clock.Pass(60);
                }
            }
        );
        ClearanceWork.Set(log);
        if (log.Unit.Kind.HasMovingBedknife)
        {
            HeightWork.Trim(log, HeightWork.Read(log));
            HeightWork.Groomer(log);
        }
    }

    /// <summary>Ground on the grinder, its guard closed, measured and set at rest.</summary>
    public static void Grind(UnitLog log, SafetyLog safety) =>
        FullWork.Grind(log, stone => Run(log, safety, ServiceTask.Grind, "bedknife and reel ground", stone));

    private static void Run(UnitLog log, SafetyLog safety, ServiceTask task, string what, Action whileItRuns)
    {
        var person = log.Technician;
        safety.Note(TimelineEventKind.WorkStopped, person, 10);
        if (task is ServiceTask.Grind)
        {
            safety.Note(TimelineEventKind.GuardsRefitted, person, 30);
        }

        safety.Note(TimelineEventKind.AreaInspected, person, 30);
        safety.Note(TimelineEventKind.PeopleClearChecked, person, 15);
        safety.GuardBefore(person, safety.MeasuresFor(task));
        safety.TakeOff(person);
        safety.SwitchOn(person);
        safety.Note(TimelineEventKind.TestEnergised, person, 30, reason: what, task: task);
        safety.Note(TimelineEventKind.EnergisedTaskPerformed, person, 30, reason: what, task: task);
        whileItRuns();
        safety.Note(TimelineEventKind.TestEnded, person, 60);
        safety.StopAgain(person);
        safety.MakeDeadAgain(person);
        safety.StartWork(person);
    }
}
