using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>What a record shows that cannot be done with hands out of the reach of the blades, whatever it says of hands.</summary>
internal sealed record HandsAtTheBlades(string What, string Pointer)
{
    /// <summary>Every such entry of the bench log, tasks that are done at the blades, and blockages cleared by hand.</summary>
    public static ImmutableArray<HandsAtTheBlades> Shown(DutyFrame duty)
    {
        var shown = ImmutableArray.CreateBuilder<HandsAtTheBlades>();
        foreach (var entry in duty.Reading.Events.Where(Clearing.IsByHand))
        {
            shown.Add(new(EventWords.Done(TimelineEventKind.BlockageClearedByHand), entry.Pointer()));
        }

        // A wedge is set between the blades, and a unit is propped up by hands under it.
        foreach (var entry in duty.Reading.Of(TimelineEventKind.ReelWedged, TimelineEventKind.UnitSupported))
        {
            shown.Add(new($"{EventWords.Done(entry.Event)} {duty.Words.AtBy(entry)}", entry.Pointer()));
        }

        for (var task = 0; task < duty.Record.Tasks.Length; task++)
        {
            if (IsDoneAtTheBlades(duty, duty.Record.Tasks[task]))
            {
                shown.Add(
                    new(
                        $"{TaskWords.Of(duty.Record.Tasks[task])} as the task",
                        string.Create(CultureInfo.InvariantCulture, $"/tasks/{task}")
                    )
                );
            }
        }

        var isTurnedFromOutside = duty.Record.Tasks.Any(task => IsFromOutside(duty, task));
        for (var unit = 0; unit < duty.Record.Units.Length; unit++)
        {
            var entries = duty.Record.Units[unit].Entries;
            for (var index = 0; index < entries.Length; index++)
            {
                if (
                    (
                        WhatOf(entries[index], isTurnedFromOutside)
                        ?? (
                            IsReadRunning(duty.Reading, entries[index])
                                ? "a reading taken while the machine ran"
                                : null
                        )
                    ) is
                    { } what
                )
                {
                    shown.Add(new($"{what} on {duty.Record.Units[unit].Id}", Pointers.Entry(unit, index)));
                }
            }
        }

        return shown.ToImmutable();
    }

    /// <summary>Readings for which a gauge is held to a unit beside its blades, and not surely between them.</summary>
    public static ImmutableArray<HandsAtTheBlades> GaugesHeld(DutyFrame duty) =>
        [
            .. duty.Record.Units.SelectMany(
                (unit, at) =>
                    unit
                        .Entries.Select((entry, index) => (entry, index))
                        .Where(one => IsHeldBeside(one.entry))
                        .Select(one => new HandsAtTheBlades(
                            $"a gauge held to {unit.Id}",
                            Pointers.Entry(at, one.index)
                        ))
            ),
        ];

    private static bool IsHeldBeside(BenchEntry entry) =>
        entry
            is Reading
            {
                Quantity: MeasuredQuantity.Attitude
                    or MeasuredQuantity.Edge
                    or MeasuredQuantity.FrontRoller
                    or MeasuredQuantity.GroomerHeight,
                Observed: Observation.Measured
            };

    /// <summary>Whether a reading is shown to have been taken at a unit while the machine ran.</summary>
    public static bool ReadRunning(DutyFrame duty) =>
        duty.Record.Units.Any(unit => unit.Entries.Any(entry => IsReadRunning(duty.Reading, entry)));

    /// <summary>Whether a reading without a time may have been taken while the machine ran.</summary>
    public static bool MayHaveReadRunning(DutyFrame duty) =>
        !duty.Reading.Running.And(duty.Reading.AnyWork).Intervals.IsEmpty
        && duty.Record.Units.Any(unit => unit.Entries.Any(entry => IsAtTheUnit(entry) && entry.At is null));

    // A gauge is laid on a unit by hand; what is only looked at is not.
    private static bool IsAtTheUnit(BenchEntry entry) => entry is Reading { Observed: not Observation.Seen };

    // Without a time: as the work was done, if the machine ran through all of it.
    private static bool IsReadRunning(TimelineReading reading, BenchEntry entry)
    {
        if (!IsAtTheUnit(entry))
        {
            return false;
        }

        if (entry.At is not { } at)
        {
            return !reading.AnyWork.Intervals.IsEmpty
                && reading.AnyWork.Without(reading.Running).Intervals.IsEmpty;
        }

        // Times are often noted to the minute: before or after every entry of it.
        var moment = JudgedOrder.MomentOf(at, reading.Frame.Context.Zone);
        return reading.Running.Contains(new(moment, int.MinValue))
            && reading.Running.Contains(new(moment, int.MaxValue));
    }

    private static string? WhatOf(BenchEntry entry, bool isTurnedFromOutside) =>
        entry switch
        {
            Reading { Quantity: var quantity, Observed: var observed } => OfReading(quantity, observed),
            Adjustment { Adjuster: AdjusterKind.Clearance } => isTurnedFromOutside
                ? null
                : "an adjuster turned",
            Adjustment => "an adjuster turned",
            Grinding => "metal ground off",
            PartFitted => "a part fitted",
            _ => null,
        };

    // Under the rollers, at the brush and by eye nobody reaches between the blades.
    private static string? OfReading(MeasuredQuantity quantity, Observation observed) =>
        quantity
            is MeasuredQuantity.FrontRollerOnPlate
                or MeasuredQuantity.RearRollerOnPlate
                or MeasuredQuantity.BrushGap
            ? null
            : observed switch
            {
                Observation.FeelerTest => "a feeler between the blades",
                Observation.Paper => "paper tried at the blades",
                Observation.Contact => "the contact felt over the blades",
                _ when IsAtTheReel(quantity, observed) => "a reading at the reel",
                _ => null,
            };

    private static bool IsAtTheReel(MeasuredQuantity quantity, Observation observed) =>
        quantity
            is MeasuredQuantity.BearingPlay
                or MeasuredQuantity.ReelDiameter
                or MeasuredQuantity.LandWidth
                or MeasuredQuantity.BedknifeLip
        || (
            quantity is MeasuredQuantity.Clearance or MeasuredQuantity.ShieldGap
            && observed is Observation.Measured
        );

    private static bool IsDoneAtTheBlades(DutyFrame duty, ServiceTask task) =>
        task
            is ServiceTask.TouchUp
                or ServiceTask.FullService
                or ServiceTask.Grind
                or ServiceTask.Lap
                or ServiceTask.SeasonalOverhaul
        && !IsFromOutside(duty, task);

    // The one way to set a reel with hands out of its reach: as the procedure has it for the task on the running reel.
    public static bool IsFromOutside(DutyFrame duty, ServiceTask task) =>
        EnergisedTaskDuties.Listed(duty, task) is { ApprovedBy: not null, AdjusterControl: not null };
}
