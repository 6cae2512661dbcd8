using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using static ServiceRules.Application.Demo.SeededFaultKind;

namespace ServiceRules.Application.Demo;

/// <summary>Which planned job goes wrong, and how; and which only looks odd. What holds a unit is put right next day.</summary>
internal static class FaultPlan
{
    // One technician skips steps, one backfills; the rest is what happens to anybody.
    private const string Skips = "tech-04";
    private const string Backfills = "tech-05";

    private static readonly ImmutableArray<Place> Faults =
    [
        new(CalibrationLapsed, 2025, "M-10", ServiceTask.FullService, 0),
        new(RecheckMissed, 2025, "M-07", ServiceTask.FullService, 0),
        new(ShieldTooWide, 2025, "M-08", ServiceTask.FullService, 0, 4),
        new(HeightReadAtOneEnd, 2025, "M-04", ServiceTask.HeightCheck, 2, 3),
        new(FeelersNotInspected, 2025, "M-05", ServiceTask.TouchUp, 1),
        new(IsolationNotVerified, 2025, "M-06", ServiceTask.HeightCheck, 3, By: Skips),
        new(BlockageClearedByHand, 2025, "M-06", ServiceTask.ClearBlockage, 0, By: Skips),
        new(HeavyContact, 2025, "M-07", ServiceTask.DailyCheck, 1, 3),
        new(HeightReadBeforeClearance, 2025, "M-03", ServiceTask.TouchUp, 2, 2),
        new(BackFilledTimes, 2025, "M-07", ServiceTask.TouchUp, 1, By: Backfills),
        new(BackFilledTimes, 2025, "M-08", ServiceTask.HeightCheck, 4, By: Backfills),
        new(UnitTilted, 2025, "M-03", ServiceTask.HeightCheck, 5, 2),
        new(LockTakenOffByAnother, 2025, "M-02", ServiceTask.TouchUp, 3),
        new(BedknifeLipGone, 2025, "M-07", ServiceTask.Grind, 0, 5),
        new(SpreadAcrossUnits, 2025, "M-01", ServiceTask.HeightCheck, 9),
        new(NotSignedOff, 2025, "M-10", ServiceTask.HeightCheck, 8),
        new(GroomerOffHeight, 2026, "M-01", ServiceTask.FullService, 0, 2),
        new(FrontRollerOutOfParallel, 2026, "M-03", ServiceTask.FullService, 0, 1),
        new(BearingPlay, 2026, "M-06", ServiceTask.FullService, 0, 2),
        new(NoLock, 2026, "M-07", ServiceTask.HeightCheck, 2, By: Skips),
        new(GuardsNotRecorded, 2026, "M-08", ServiceTask.TouchUp, 1, By: Skips),
        new(BurstOfSteps, 2026, "M-06", ServiceTask.HeightCheck, 3, By: Backfills),
        new(ContactLost, 2026, "M-10", ServiceTask.DailyCheck, 1),
        new(ClearanceTooWide, 2026, "M-02", ServiceTask.TouchUp, 1, 1),
        new(DefectLeftOpen, 2026, "M-09", ServiceTask.HeightCheck, 4),
        new(WornReelNotSetUp, 2026, "M-04", ServiceTask.Grind, 0, 2),
        new(ReelBelowServiceLimit, 2026, "M-09", ServiceTask.Grind, 0, 3),
        new(AdjacentEndsStep, 2026, "M-09", ServiceTask.HeightCheck, 7),
        new(TrainingLapsed, 2026, "M-08", ServiceTask.HeightCheck, 8, By: Backfills),
        new(HeightOffTarget, 2026, "M-11", ServiceTask.HeightCheck, 12),
        new(LockOffMidJob, 2026, "M-03", ServiceTask.TouchUp, 1),
        new(RunNotRelocked, 2026, "M-06", ServiceTask.TouchUp, 1, By: Skips),
        new(ShiftGap, 2025, "M-06", ServiceTask.TouchUp, 1),
        new(AdjusterTurnedInRun, 2026, "M-02", ServiceTask.Lap, 0, 2),
    ];

    private static readonly ImmutableArray<(OddityKind Oddity, Place Place)> Oddities =
    [
        (OddityKind.InchesBesideMillimetres, new(default, 2025, "M-02", ServiceTask.HeightCheck, 0)),
        (OddityKind.DeviceOffline, new(default, 2025, "M-09", ServiceTask.ClearBlockage, 0)),
        (OddityKind.LetOutBySecondPerson, new(default, 2026, "M-05", ServiceTask.HeightCheck, 9)),
        (OddityKind.RunAndRelocked, new(default, 2025, "M-04", ServiceTask.TouchUp, 1)),
        (OddityKind.ShiftHandedOver, new(default, 2026, "M-07", ServiceTask.TouchUp, 1)),
        (OddityKind.HonestLateEntry, new(default, 2026, "M-08", ServiceTask.DailyCheck, 2)),
    ];

    /// <summary>The plan with its faults and oddities, and the jobs that put right what must not go out.</summary>
    public static IEnumerable<PlannedJob> Seeded(IEnumerable<PlannedJob> season)
    {
        var plan = season.OrderBy(job => job.Day).ThenBy(job => job.NotBefore).ToList();
        foreach (var fault in Faults)
        {
            if (Find(plan, fault) is { } at)
            {
                plan[at] = plan[at] with
                {
                    Fault = fault.Kind,
                    FaultyPosition = fault.Position,
                    Technician = fault.By ?? plan[at].Technician,
                    Crew = fault.Kind is ShiftGap ? 2 : plan[at].Crew,
                };
                plan.AddRange(PutRight(plan[at]));
                if (fault.Kind is DefectLeftOpen && NextOn(plan, at) is { } next)
                {
                    plan[next] = plan[next] with { ClosesDefect = true };
                }
            }
        }

        foreach (var (oddity, place) in Oddities)
        {
            if (Find(plan, place) is { } at)
            {
                plan[at] = plan[at] with
                {
                    Oddity = oddity,
                    Crew = oddity is OddityKind.ShiftHandedOver ? 2 : plan[at].Crew,
                };
            }
        }

        return plan.Select(MisSet);
    }

    /// <summary>The week in June in which the gauge of the bowling greens was out.</summary>
    private static PlannedJob MisSet(PlannedJob job) =>
        job.Task is ServiceTask.HeightCheck
        && string.Equals(job.Machine.HeightGauge, "HG-03", StringComparison.Ordinal)
        && job.Day >= new DateOnly(2025, 6, 9)
        && job.Day <= new DateOnly(2025, 6, 13)
            ? job with
            {
                Fault = MisSetHeightGauge,
            }
            : job;

    private static int? Find(List<PlannedJob> plan, Place place)
    {
        var seen = 0;
        for (var index = 0; index < plan.Count; index++)
        {
            var job = plan[index];
            var isThere =
                job.Day.Year == place.Year
                && job.Task == place.Task
                && job.IsRoutine
                && string.Equals(job.Machine.Id, place.Machine, StringComparison.Ordinal);
            if (isThere && seen++ == place.Nth)
            {
                return index;
            }
        }

        return null;
    }

    private static int? NextOn(List<PlannedJob> plan, int after)
    {
        var next = plan.FindIndex(
            after + 1,
            job =>
                job.Place is WorkPlace.OnMachine
                && string.Equals(job.Machine.Id, plan[after].Machine.Id, StringComparison.Ordinal)
        );
        return next < 0 ? null : next;
    }

    private static IEnumerable<PlannedJob> PutRight(PlannedJob job)
    {
        ServiceTask? task = job.Fault switch
        {
            HeightOffTarget or UnitTilted or SpreadAcrossUnits or AdjacentEndsStep or HeightReadAtOneEnd =>
                ServiceTask.HeightChange,
            HeavyContact or ContactLost or ClearanceTooWide or HeightReadBeforeClearance =>
                ServiceTask.TouchUp,
            FrontRollerOutOfParallel
            or ShieldTooWide
            or GroomerOffHeight
            or WornReelNotSetUp
            or ReelBelowServiceLimit
            or BedknifeLipGone
            or BearingPlay => ServiceTask.FullService,
            _ => null,
        };
        if (task is not { } putRight)
        {
            yield break;
        }

        yield return new()
        {
            Day = job.Day.AddDays(job.Day.DayOfWeek is DayOfWeek.Friday ? 3 : 1),
            NotBefore = new(6, 5),
            Machine = job.Machine,
            Task = putRight,
            OnlyPosition = putRight is ServiceTask.FullService ? job.FaultyPosition : null,
            Complaint = "held yesterday, see the job before",
            IsRoutine = false,
        };
    }

    /// <summary>The nth job of a kind on a machine in a year, counted from 0.</summary>
    private sealed record Place(
        SeededFaultKind Kind,
        int Year,
        string Machine,
        ServiceTask Task,
        int Nth,
        int Position = 1,
        string? By = null
    );
}
