using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Checks;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// What the rechecks of a source read against the limit that is stated for it. A reading above it is made good by what
/// comes next: hands out, or the pressure released; and released it must be before hands go in again.
/// </summary>
internal static class RecheckReadings
{
    private const string Act = "Hands out; release the pressure and check again before work goes on.";

    /// <summary>Readings above the limit that nobody acted on, and rechecks without a reading.</summary>
    public static IEnumerable<TimelineFault> Faults(DutyFrame duty, EnergySource source)
    {
        if (source.RecheckLimit is not { } limit)
        {
            yield break;
        }

        var checks = RechecksMissed.Checks(duty.Reading, source);
        foreach (var check in checks)
        {
            if (check.Event.Pressure is { } read && read > limit && !IsActedOn(duty.Reading, source, check))
            {
                yield return TooHigh(duty, source, check, read, limit);
            }
        }

        var silent = checks
            .Where(check => check.Event is { Kind: TimelineEventKind.StoredEnergyRechecked, Pressure: null })
            .ToList();
        if (silent.Count > 0)
        {
            yield return new(
                Verdict.Unproven,
                FindingReason.StepMissing,
                $"The record shows {TimelineWords.Named(source)} checked again at {TimelineWords.List(silent.Select(duty.Words.Time))} without what was read; no more than {limit} is allowed.",
                [.. silent],
                "Enter what the gauge showed, as a late entry."
            );
        }
    }

    private static TimelineFault TooHigh(
        DutyFrame duty,
        EnergySource source,
        OrderedEvent check,
        Pressure read,
        Pressure limit
    ) =>
        new(
            Verdict.NotMet,
            FindingReason.Unprotected,
            $"The record shows {TimelineWords.Named(source)} read at {read} {duty.Words.AtBy(check)}, above the {limit} that are allowed, and does not show hands out or the pressure released next, nor released before hands went in again.",
            [check],
            Act
        );

    private static bool IsActedOn(TimelineReading reading, EnergySource source, OrderedEvent check)
    {
        var handsIn = reading.AnyWork.Contains(check.Place());
        foreach (var next in reading.Events.Where(entry => entry.Place() > check.Place()))
        {
            if (next.Event.Kind == TimelineEventKind.StoredEnergyReleased && next.Event.SpeaksOf(source.Id))
            {
                return true;
            }

            if (next.Event.Kind == TimelineEventKind.WorkStopped)
            {
                handsIn = reading.AnyWork.Contains(next.Place());
            }
            else if (handsIn || next.Event.Kind == TimelineEventKind.WorkStarted)
            {
                return false;
            }
        }

        return !handsIn;
    }
}
