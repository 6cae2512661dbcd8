using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>Hands that somebody lends to a job in passing, and what is let down or tried over hands that are in.</summary>
internal static class HandRows
{
    /// <summary>What can be said of protection from these alone: never met, or nothing.</summary>
    public static Possible Protected(Story story) =>
        (story.Place == WorkPlace.OnMachine || story.Isolatable.Any())
        && story.Steps.Any(s => IsLentBare(story, s) || IsOverHands(story, s))
            ? Possible.NeverMet
            : Possible.Any;

    /// <summary>A wedge, a prop or a guard set amid others' work by somebody who is not at work and never hung anything.</summary>
    private static bool IsLentBare(Story story, Step step) =>
        step.Kind
            is TimelineEventKind.ReelWedged
                or TimelineEventKind.UnitSupported
                or TimelineEventKind.GuardsRefitted
        && IsAmidWork(story, step)
        && !story.Additions.Any()
        && story.Isolatable.Any(source => source.Lockable)
        && !story.Workers.Contains(step.By)
        && !story.Steps.Any(s => s.IsDeviceOn && s.By == step.By);

    private static bool IsOverHands(Story story, Step step) =>
        step.Kind is TimelineEventKind.UnitsLowered or TimelineEventKind.CutOutsProved
        && IsAmidWork(story, step);

    private static bool IsAmidWork(Story story, Step step) =>
        story.Spells.Any(spell =>
            spell.Covers(step.Place)
            && spell.Start.At != step.At
            && spell.Stop is { } stop
            && stop.At != step.At
        );
}
