using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>Times of bench entries held against the order of the bench log and against the hands-on work.</summary>
internal static class BenchTimes
{
    /// <summary>One doubt for every bench entry whose time cannot be right.</summary>
    public static IEnumerable<EntryDoubt> Contradicted(TimelineReading reading)
    {
        var units = reading.Frame.Record.Units;
        var byHand = reading.HandsByTheLog.Select(hands => hands.Pointer).ToHashSet(StringComparer.Ordinal);
        for (var unit = 0; unit < units.Length; unit++)
        {
            foreach (var doubt in InUnit(reading, units[unit], unit, byHand))
            {
                yield return doubt;
            }
        }

        foreach (var tooFast in ReadingTimes.In(reading))
        {
            yield return tooFast;
        }
    }

    /// <summary>Pointers of bench entries whose time contradicts the order in which they stand.</summary>
    public static IReadOnlySet<string> OutOfOrder(TimelineReading reading)
    {
        var found = new HashSet<string>(StringComparer.Ordinal);
        var units = reading.Frame.Record.Units;
        for (var unit = 0; unit < units.Length; unit++)
        {
            Moment? latest = null;
            for (var index = 0; index < units[unit].Entries.Length; index++)
            {
                if (units[unit].Entries[index].At is not { } at)
                {
                    continue;
                }

                var moment = JudgedOrder.MomentOf(at, reading.Frame.Context.Zone);
                if (latest is { } before && moment < before)
                {
                    found.Add(Pointers.Entry(unit, index));
                }

                latest = latest is { } so && so > moment ? so : moment;
            }
        }

        return found;
    }

    private static IEnumerable<EntryDoubt> InUnit(
        TimelineReading reading,
        UnitWork unit,
        int unitIndex,
        HashSet<string> byHand
    )
    {
        (Moment Moment, RecordedTime At)? latest = null;
        for (var index = 0; index < unit.Entries.Length; index++)
        {
            var entry = unit.Entries[index];
            if (entry.At is not { } at)
            {
                continue;
            }

            var moment = JudgedOrder.MomentOf(at, reading.Frame.Context.Zone);
            if (latest is { } before && moment < before.Moment)
            {
                yield return Doubt(
                    unitIndex,
                    index,
                    $"the entry at {at.Text} on {unit.Id} stands after the one at {before.At.Text}"
                );
            }
            else if (entry is Grinding ground && Standing(reading, ground, moment) is { } why)
            {
                yield return Doubt(
                    unitIndex,
                    index,
                    $"the {(ground.Kind == GrindingKind.Lapping ? "lapping" : "grinding")} of {unit.Id} is timed at {at.Text}, {why}: "
                        + "it is done on a reel that turns, so the time or that is not so"
                );
            }
            else if (
                (entry is Grinding or PartFitted || byHand.Contains(Pointers.Entry(unitIndex, index)))
                && !reading.Works.IsEmpty
                && !IsDuringWork(reading, entry, moment)
                && !(IsOfARun(entry) && IsDuringTask(reading, moment))
            )
            {
                yield return Doubt(
                    unitIndex,
                    index,
                    $"the {(entry is Reading ? "reading" : "work")} on {unit.Id} at {at.Text} lies outside the hands-on work of "
                        + (entry.By?.Text ?? "everybody in the job")
                );
            }

            latest = latest is { } so && so.Moment > moment ? so : (moment, at);
        }
    }

    private static EntryDoubt Doubt(int unit, int entry, string why) =>
        new(CredibilityOf.EntryTimes, Pointers.Entry(unit, entry), why, Weakens: false);

    /// <summary>
    /// Why a reel cannot have turned when it was lapped, or ground on the grinder of which the record is; null: it may have.
    /// </summary>
    private static string? Standing(TimelineReading reading, Grinding ground, Moment moment)
    {
        if (ground.Kind != GrindingKind.Lapping && reading.Frame.Record.Place != WorkPlace.OnBench)
        {
            return null;
        }

        // Times are often noted to the minute: before or after every entry of it.
        TimelinePlace[] places = [new(moment, int.MinValue), new(moment, int.MaxValue)];
        var off = (reading.Protection?.Sources ?? []).FirstOrDefault(source =>
            source.HasIsolator
            && StartsHeldOff.IsDrive(source.Source.Id)
            && places.All(source.Isolated.Contains)
        );
        return off is not null ? $"while {TimelineWords.Named(off.Source)} is off"
            : !reading.Energisings.IsEmpty
            && IsDuringWork(reading, ground, moment)
            && !places.Any(reading.Running.Contains)
                ? "with hands in and no run of the reel shown"
            : null;
    }

    // Both ends count: times are often noted to the minute.
    private static bool IsDuringWork(TimelineReading reading, BenchEntry entry, Moment moment) =>
        reading.Works.Any(work =>
            (entry.By is not { } by || work.Person == by) && WholeMinute.Has(reading, work, moment)
        );

    // Metal comes off at the grinder, or by lapping, while the reel turns and hands are out; its contact is heard then, and what
    // is turned is held against the control that the procedure names.
    private static bool IsOfARun(BenchEntry entry) =>
        entry is Grinding or Adjustment or Reading { Observed: Observation.Contact };

    private static bool IsDuringTask(TimelineReading reading, Moment moment) =>
        reading
            .Of(TimelineEventKind.TestEnergised, TimelineEventKind.MachineStarted)
            .Any(start =>
                start.Moment <= moment
                && !(EndOf(reading, start)?.Moment < moment)
                && IsForTask(reading, start)
            );

    /// <summary>Whether a start is of a run for a task: the entry says so, or the task is entered in it.</summary>
    /// <param name="reading">The timeline.</param>
    /// <param name="start">A test energised, or the machine started.</param>
    public static bool IsForTask(TimelineReading reading, OrderedEvent start) =>
        start.Event.Task is not null || IsTaskEntered(reading, start, EndOf(reading, start));

    private static OrderedEvent? EndOf(TimelineReading reading, OrderedEvent start) =>
        reading
            .Of(TimelineEventKind.TestEnded, TimelineEventKind.MachineShutDown)
            .FirstOrDefault(end => end.Place() > start.Place());

    private static bool IsTaskEntered(TimelineReading reading, OrderedEvent start, OrderedEvent? end) =>
        reading
            .Of(TimelineEventKind.EnergisedTaskPerformed)
            .Any(done => done.Place() > start.Place() && !(end?.Place() < done.Place()));
}
