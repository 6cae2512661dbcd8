using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Units that one record lowers while another of the machine shows hands in: what hangs over hands is energy.</summary>
internal static class UnitsMovedBeside
{
    private const string Act =
        "Ask what was moved and where hands were; units are lowered or held before anybody's hands go in, and stay so.";

    /// <summary>Told at both: at the record that lowered them, and at the one with hands in.</summary>
    public static IEnumerable<TimelineFault> Faults(JobBeside both) =>
        both.Other.IsOffTheMachine
            ? []
            : (
                from moved in both.Own.Of(TimelineEventKind.UnitsLowered)
                from hands in both.HandsOfTheOther
                where IsAmid(moved, hands)
                select new TimelineFault(
                    Verdict.Unproven,
                    FindingReason.StepMissing,
                    $"The record shows {EventWords.Done(moved.Event)} {both.Words.AtBy(moved)}, and record {both.Name} shows {hands.Person} with hands in {both.Duty.Record.Machine.Id} {hands.Told(both.Words)}.",
                    [moved],
                    Act
                )
            ).Concat(
                from moved in both.Others.Of(TimelineEventKind.UnitsLowered)
                from hands in both.OwnHands
                where IsAmid(moved, hands)
                select new TimelineFault(
                    Verdict.Unproven,
                    FindingReason.StepMissing,
                    $"Record {both.Name} shows {EventWords.Done(moved.Event)} {both.Words.AtBy(moved)}, and this record shows {hands.Person} with hands in {hands.Told(both.Words)}.",
                    hands.Entries,
                    Act,
                    hands.Beside
                )
            );

    private static bool IsAmid(OrderedEvent moved, HandsKnown hands) =>
        hands.From < moved.Moment && moved.Moment < hands.Until;
}
