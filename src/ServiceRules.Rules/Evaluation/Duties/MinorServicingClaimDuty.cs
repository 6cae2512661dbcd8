using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// A claim of minor servicing holds: the machine is in use, the task is routine, repetitive and part of that use, hands
/// stay out of the reach of the blades, and other measures were in place before work.
/// </summary>
internal static class MinorServicingClaimDuty
{
    private const string Act =
        "Isolate and lock out as for any other work: the claim of minor servicing does not hold.";

    /// <summary>Whether it is claimed and shown to hold: what rests on entries that prove nothing is not.</summary>
    public static bool Holds(DutyFrame duty) =>
        !Claims(duty).IsEmpty && Faults(duty).IsEmpty && duty.Reading.AreCredible(RestsOn(duty));

    public static CheckOutcome Judge(DutyFrame duty)
    {
        var claims = Claims(duty);
        if (claims.IsEmpty)
        {
            return TimelineOutcome.NotApplicable("Nobody claims minor servicing.");
        }

        var faults = Faults(duty);
        if (!faults.IsEmpty)
        {
            return Suppression.HoldingExemption(duty) is not null
                ? TimelineOutcome.NotApplicable("Another exemption holds, so this claim is not needed.")
                : TimelineOutcome.OfFaults(faults);
        }

        var measures = MeasuresOf(duty);
        return TimelineOutcome.Met(
            duty.Reading,
            $"The record shows minor servicing in use claimed by {claims[^1].Entry.Event.Actor}, with all that the claim needs and other measures {duty.Words.AtBy(measures[0])}.",
            RestsOn(duty)
        );
    }

    private static ImmutableArray<OrderedEvent> RestsOn(DutyFrame duty) =>
        [
            .. Claims(duty).Select(made => made.Entry),
            .. MeasuresOf(duty)
                .Where(entry =>
                    duty.Reading.FirstWork is not { Start: var start } || entry.Place() < start.Place()
                )
                .OrderBy(entry => duty.Reading.Weakened.Contains(entry.Pointer()))
                .Take(1),
        ];

    private static ImmutableArray<ClaimMade> Claims(DutyFrame duty) =>
        [.. duty.Claims.Where(made => made.Claim.Kind == ExemptionKind.MinorServicing)];

    private static ImmutableArray<TimelineFault> Faults(DutyFrame duty)
    {
        var claims = Claims(duty);
        var entries = claims.Select(made => made.Entry).ToImmutableArray();
        var wrong = new List<string>();
        if (duty.Record.Setting != WorkSetting.InUse)
        {
            wrong.Add("the machine was in the workshop, not in use");
        }

        if (duty.HandsInBladeZone)
        {
            wrong.Add(
                duty.Record.HandsInBladeZone is null
                    ? "the record does not say that hands stayed out of the reach of the blades"
                    : "hands went into the reach of the blades"
            );
        }

        wrong.AddRange(claims.SelectMany(made => NotSaid(made.Claim)).Distinct(StringComparer.Ordinal));
        TimelineFault? facts =
            wrong.Count == 0
                ? null
                : new(
                    Verdict.NotMet,
                    FindingReason.ProcedureNotFollowed,
                    $"Minor servicing is claimed, and {TimelineWords.List(wrong)}.",
                    entries,
                    Act
                );
        return [
            .. new[]
            {
                facts,
                Suppression.ClaimedLate(duty, "Minor servicing", entries, Act),
                Measures(duty, entries),
            }.OfType<TimelineFault>(),
        ];
    }

    private static IEnumerable<string> NotSaid(ExemptionClaim claim)
    {
        if (claim.Routine != true)
        {
            yield return "the task is not said to be routine";
        }

        if (claim.Repetitive != true)
        {
            yield return "the task is not said to be repetitive";
        }

        if (claim.Integral != true)
        {
            yield return "the task is not said to be part of using the machine";
        }
    }

    private static TimelineFault? Measures(DutyFrame duty, ImmutableArray<OrderedEvent> entries)
    {
        var measures = MeasuresOf(duty);
        if (duty.Reading.FirstWork is not { Start: var start })
        {
            return !measures.IsEmpty ? null
                : duty.Reading.IsOpen
                    ? new(
                        Verdict.Unproven,
                        FindingReason.InProgress,
                        "Minor servicing is claimed, and the record does not show the other measures yet.",
                        entries,
                        "Put the measures in place and record them before work starts."
                    )
                : Missing("the record does not show the other measures", entries);
        }

        return measures.Any(entry => entry.Place() < start.Place())
            ? null
            : Missing(
                measures.IsEmpty
                    ? "the record does not show the other measures"
                    : $"the other measures were recorded {duty.Words.AtBy(measures[0])}, not before work started at {duty.Words.Time(start)}",
                [.. entries, .. measures, start]
            );
    }

    private static TimelineFault Missing(string what, ImmutableArray<OrderedEvent> entries) =>
        new(
            Verdict.NotMet,
            FindingReason.StepMissing,
            $"Minor servicing is claimed, and {what}.",
            entries,
            Act
        );

    // Measures that are not named are none.
    private static ImmutableArray<OrderedEvent> MeasuresOf(DutyFrame duty) =>
        [
            .. duty
                .Reading.Of(TimelineEventKind.AlternativeMeasuresRecorded)
                .Where(entry => !entry.Event.Measures.IsEmpty),
        ];
}
