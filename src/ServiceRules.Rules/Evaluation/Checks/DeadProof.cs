using System.Collections.Immutable;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Cut-outs entered as proved on a machine that could not have run: what stops an engine is shown only by an engine that
/// it stops, or that it keeps from starting. Nor is it shown by an entry whose own words say the opposite.
/// </summary>
internal static class DeadProof
{
    private const string Act =
        "Prove the cut-outs with the isolators on again, and enter the start of the machine that goes with it.";

    /// <summary>Why such an entry shows nothing; null: the machine was alive, or it is another entry.</summary>
    public static TimelineFault? Fault(TimelineReading reading, OrderedEvent proved, OrderedEvent? workEnded)
    {
        if (proved.Event.Kind != TimelineEventKind.CutOutsProved)
        {
            return null;
        }

        var words = reading.Words;
        var told = $"The record shows {EventWords.Done(proved.Event.Kind)} {words.AtBy(proved)}";
        if (SaidOtherwise.By(proved.Event))
        {
            return new(
                Verdict.Unproven,
                FindingReason.NotCredible,
                $"{told}, and {SaidOtherwise.Told(proved)}.",
                [proved],
                "Prove each cut-out before the machine goes out, and enter what came of it."
            );
        }

        var off = HeldOff(reading, proved);
        if (!off.IsEmpty)
        {
            return new(
                Verdict.Unproven,
                FindingReason.NotCredible,
                $"{told}, while it shows {TimelineWords.Named(off)} switched off: on a dead machine no cut-out is shown to work.",
                [proved],
                Act
            );
        }

        return IsStarted(reading, proved, workEnded)
            ? null
            : new(
                Verdict.Unproven,
                FindingReason.StepMissing,
                $"{told}, and no start of the machine {(workEnded is null ? "before it" : $"between the end of work at {words.Time(workEnded)} and then")}: on a dead machine no cut-out is shown to work.",
                workEnded is null ? [proved] : [workEnded, proved],
                Act
            );
    }

    private static ImmutableArray<EnergySource> HeldOff(TimelineReading reading, OrderedEvent proved) =>
        [
            .. from source in reading.Protection?.SourcesAt(proved.Place()) ?? []
            where
                source.HasIsolator
                && StartsHeldOff.IsDrive(source.Source.Id)
                && source.Isolated.Contains(proved.Place())
            select source.Source,
        ];

    // Entered in one printed minute, either may have come first.
    private static bool IsStarted(TimelineReading reading, OrderedEvent proved, OrderedEvent? workEnded) =>
        reading.Running.Contains(proved.Place())
        || reading.Energisings.Any(start =>
            (workEnded is null || start.Place() > workEnded.Place())
            && (start.Place() < proved.Place() || start.Place().IsInTheMinuteOf(proved.Place()))
        );
}
