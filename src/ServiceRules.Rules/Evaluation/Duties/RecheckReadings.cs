using System.Collections.Immutable;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Checks;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>
/// What was read of the pressure of a source, against the limit that is stated for it. Above it, with hands in, everybody's
/// hands come out as the next thing; and before hands go in again the pressure is released and read at no more than the limit.
/// </summary>
internal static class RecheckReadings
{
    public const string Act = "Hands out; release the pressure and check again before work goes on.";

    private const string ReadIt = "Enter what the gauge showed, as a late entry.";

    /// <summary>To take hands out takes moments; common practice, no source.</summary>
    public static readonly TimeSpan AtOnce = TimeSpan.FromMinutes(2);

    /// <summary>Readings above the limit that nobody acted on, and rechecks without a reading.</summary>
    /// <param name="duty">The job.</param>
    /// <param name="source">The source.</param>
    /// <param name="counts">Whether a check counts, by who made it.</param>
    public static IEnumerable<TimelineFault> Faults(
        DutyFrame duty,
        EnergySource source,
        Func<OrderedEvent, bool> counts
    )
    {
        if (source.RecheckLimit is not { } limit)
        {
            yield break;
        }

        foreach (
            var high in SourceReading
                .PressuresRead(duty.Reading, source)
                .Where(entry => SourceReading.IsAboveLimit(source, entry.Event))
        )
        {
            if (Undone(duty.Reading, source, high) is { } undone)
            {
                yield return new(
                    Verdict.NotMet,
                    FindingReason.Unprotected,
                    $"The record shows {TimelineWords.Named(source)} read at {high.Event.Pressure} {duty.Words.AtBy(high)}, above the {limit} that are allowed, and does not show {undone}.",
                    [high],
                    Act
                );
            }
        }

        var checks = RechecksMissed.Checks(duty.Reading, source);
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
                ReadIt
            );
        }

        if (ProofsInPlaceOfRechecks(duty, source, checks, counts) is { Count: > 0 } proofs)
        {
            yield return new(
                Verdict.Unproven,
                FindingReason.StepMissing,
                $"The record shows {TimelineWords.Named(source)} proven dead again at {TimelineWords.List(proofs.Select(duty.Words.Time))} in place of a check of its pressure, without what was read; no more than {limit} is allowed.",
                [.. proofs],
                ReadIt
            );
        }
    }

    /// <summary>
    /// Proofs without a reading that stand for rechecks: without them the time between checks is longer than stated. The
    /// first proof of an isolation, before hands go in, is none of them, nor the only one that there is, however late.
    /// </summary>
    private static List<OrderedEvent> ProofsInPlaceOfRechecks(
        DutyFrame duty,
        EnergySource source,
        ImmutableArray<OrderedEvent> checks,
        Func<OrderedEvent, bool> counts
    )
    {
        var proofs = checks
            .Where(check =>
                check.Event is { Kind: TimelineEventKind.IsolationVerified, Pressure: null }
                && counts(check)
                && checks.Any(earlier =>
                    earlier.Place() < check.Place()
                    && earlier.Event.Kind == TimelineEventKind.IsolationVerified
                )
                && !IsFirstProof(duty, source, check)
            )
            .ToList();
        return
            proofs.Count > 0
            && IsMissed(duty, source, entry => counts(entry) && !proofs.Contains(entry))
            && !IsMissed(duty, source, counts)
            ? proofs
            : [];
    }

    private static bool IsMissed(DutyFrame duty, EnergySource source, Func<OrderedEvent, bool> counts) =>
        RechecksMissed.Faults(duty.Reading, source, duty.Words, counts).Any();

    // Of the isolation under which hands go in: before the first work, or of what was locked or let off anew since the last.
    private static bool IsFirstProof(DutyFrame duty, EnergySource source, OrderedEvent proof)
    {
        var works = duty.Reading.AnyWork;
        if (works.Contains(proof.Place()))
        {
            return false;
        }

        var before = works.Intervals.LastOrDefault(work => work.From < proof.Place());
        return before.Until is not { } until
            || duty.Reading.Events.Any(entry =>
                entry.Place() > until
                && entry.Place() < proof.Place()
                && (
                    entry.Event.Kind is TimelineEventKind.LockApplied or TimelineEventKind.TagApplied
                    || (
                        entry.Event.Kind == TimelineEventKind.StoredEnergyReleased
                        && entry.Event.SpeaksOf(source.Id)
                    )
                )
            );
    }

    /// <summary>The last reading above the limit in what leads up to the work, or null.</summary>
    public static OrderedEvent? LastAbove(LeadUp leadUp, EnergySource source) =>
        SourceReading
            .PressuresRead(leadUp.Duty.Reading, source)
            .LastOrDefault(entry =>
                leadUp.Contains(entry) && SourceReading.IsAboveLimit(source, entry.Event)
            );

    /// <summary>For example <c>read at 140 bar, above the 5 bar that are allowed</c>.</summary>
    public static string Above(EnergySource source, OrderedEvent high) =>
        $"read at {high.Event.Pressure}, above the {source.RecheckLimit} that are allowed";

    /// <summary>How a source was left, by the last that was read of it, for a sentence.</summary>
    public static string Left(TimelineReading reading, EnergySource source) =>
        SourceReading.PressuresRead(reading, source).LastOrDefault() is { } last
        && SourceReading.IsAboveLimit(source, last.Event)
            ? $"{TimelineWords.Named(source)} last {Above(source, last)}, and no hands in after that"
            : $"{TimelineWords.Named(source)} left at no more than {source.RecheckLimit}";

    /// <summary>What had to follow a reading above the limit and did not, after <c>does not show</c>; or null.</summary>
    private static string? Undone(TimelineReading reading, EnergySource source, OrderedEvent high)
    {
        var after = reading.Events.Where(entry => entry.Place() > high.Place()).ToList();
        if (reading.AnyWork.Contains(high.Place()))
        {
            var stops = after.TakeWhile(entry => entry.Event.Kind == TimelineEventKind.WorkStopped);
            if (
                !stops.Any(stop =>
                    !reading.AnyWork.Contains(stop.Place()) && stop.Moment - high.Moment <= AtOnce
                )
            )
            {
                return "everybody's hands out at once: as the next thing, within two minutes";
            }
        }

        var released = false;
        foreach (var next in after.Where(entry => !SourceReading.IsAboveLimit(source, entry.Event)))
        {
            if (next.Event.Kind == TimelineEventKind.WorkStarted)
            {
                return $"the pressure released, and read at no more than {source.RecheckLimit}, before hands went in again";
            }

            released |=
                next.Event.Kind == TimelineEventKind.StoredEnergyReleased && next.Event.SpeaksOf(source.Id);
            if (released && next.Event.Pressure is not null && next.Event.SpeaksOf(source.Id))
            {
                return null;
            }
        }

        return null;
    }
}
