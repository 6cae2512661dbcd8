using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>What a timeline shows of the measures that stand in the place of isolation.</summary>
internal static class MeasuresInTimeline
{
    /// <summary>What the timeline shows against measures that are said to be in place, with the entries that show it.</summary>
    public static ImmutableArray<(string What, OrderedEvent Entry)> Against(
        DutyFrame duty,
        IReadOnlyCollection<ProtectiveMeasure> measures
    ) =>
        [
            .. from measure in measures
            let entry = Contradiction(duty, measure)
            where entry is not null
            select (
                $"{MeasureWords.Of(measure)} is said, and the record shows {EventWords.Done(entry.Event.Kind)} {duty.Words.AtBy(entry)}{Why(measure)}",
                entry
            ),
        ];

    /// <summary>
    /// What of a measure the record does not show, though a step or a person of it would: null where it is shown, or where
    /// no entry could show it.
    /// </summary>
    public static string? Lacking(DutyFrame duty, ProtectiveMeasure measure) =>
        measure switch
        {
            ProtectiveMeasure.EngineOff or ProtectiveMeasure.KeyRemovedAndKept => StepsOf(
                duty,
                measure
            ).IsEmpty
                ? EventWords.Done(StepOf(measure)!.Value)
                : null,
            ProtectiveMeasure.SecondPersonAtStopControl => IsSomebodyElseThere(duty)
                ? null
                : "who the second person was",
            _ => null,
        };

    /// <summary>The entries before the first work that show a measure done, for those that one step does.</summary>
    public static ImmutableArray<OrderedEvent> StepsOf(DutyFrame duty, ProtectiveMeasure measure) =>
        StepOf(measure) is not { } step
            ? []
            :
            [
                .. duty
                    .Reading.Of(step)
                    .Where(entry =>
                        duty.Reading.FirstWork is not { Start: var start } || entry.Place() < start.Place()
                    ),
            ];

    private static TimelineEventKind? StepOf(ProtectiveMeasure measure) =>
        measure switch
        {
            ProtectiveMeasure.EngineOff => TimelineEventKind.MachineShutDown,
            ProtectiveMeasure.KeyRemovedAndKept => TimelineEventKind.KeyRemoved,
            _ => null,
        };

    private static OrderedEvent? Contradiction(DutyFrame duty, ProtectiveMeasure measure) =>
        measure switch
        {
            ProtectiveMeasure.EngineOff or ProtectiveMeasure.KeyRemovedAndKept => RunAtWork(duty),
            ProtectiveMeasure.GuardsInPlace when duty.Reading.FirstWork is { Start: var start } => duty
                .Reading.Of(TimelineEventKind.GuardsRefitted)
                .FirstOrDefault(entry => entry.Place() > start.Place()),
            ProtectiveMeasure.SingleOperatorControl => StartedByAnother(duty),
            _ => null,
        };

    private static string Why(ProtectiveMeasure measure) =>
        measure switch
        {
            ProtectiveMeasure.GuardsInPlace => ", after work began: they had been off",
            ProtectiveMeasure.SingleOperatorControl => ", who did not do the work",
            _ => ", and hands-on work while it ran",
        };

    private static OrderedEvent? RunAtWork(DutyFrame duty)
    {
        var reading = duty.Reading;
        return reading.Running.And(reading.AnyWork).Intervals is [var first, ..]
            ? reading.Energisings.LastOrDefault(start => start.Place() <= first.From)
            : null;
    }

    private static OrderedEvent? StartedByAnother(DutyFrame duty) =>
        duty.Reading.Energisings.FirstOrDefault(start =>
            duty.Reading.AnyWork.Contains(start.Place())
            && !duty.Reading.Works.Any(work => work.Person == start.Event.Actor)
        );

    private static bool IsSomebodyElseThere(DutyFrame duty) =>
        duty
            .Record.People.Where(person => person.Role != JobRole.Affected)
            .Select(person => person.Id)
            .Concat(duty.Reading.HandsIn)
            .Distinct()
            .Skip(1)
            .Any();
}
