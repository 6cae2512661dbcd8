using System.Collections.Immutable;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Stored energy that can build up again is checked at least as often as the procedure says, while anybody works. Where no
/// check stands before the work, the time runs from its start.
/// </summary>
internal static class RechecksMissed
{
    public static IEnumerable<TimelineFault> Faults(
        TimelineReading reading,
        ProtectionReading protection,
        TimelineWords words
    ) => protection.Sources.SelectMany(source => Faults(reading, source.Source, words));

    /// <summary>The checks of one source that came too late.</summary>
    /// <param name="reading">The timeline.</param>
    /// <param name="source">The source.</param>
    /// <param name="words">How its entries are told.</param>
    /// <param name="counts">Whether a check counts, by who made it; absent: every one does.</param>
    public static IEnumerable<TimelineFault> Faults(
        TimelineReading reading,
        EnergySource source,
        TimelineWords words,
        Func<OrderedEvent, bool>? counts = null
    )
    {
        if (source.RecheckMinutes is not { } minutes)
        {
            yield break;
        }

        var all = Checks(reading, source);
        var checks = counts is null ? all : [.. all.Where(counts)];
        var check =
            $"check of {TimelineWords.Named(source)}{(checks.Length < all.Length ? " by somebody whom the register shows as authorised" : string.Empty)}";
        var longest = TimeSpan.FromMinutes(minutes);
        if (NeverChecked(reading, checks) is { } began)
        {
            yield return new(
                Verdict.NotMet,
                FindingReason.StepMissing,
                $"The record shows work from {words.Time(began)}, and no {check} before or during it; the procedure asks for one at least every {minutes} minutes.",
                [began],
                "Stop, relieve and check before work goes on."
            );
            yield break;
        }

        foreach (var work in reading.AnyWork.Intervals)
        {
            if (Gap(reading, checks, work, longest) is { } last)
            {
                yield return new(
                    Verdict.NotMet,
                    FindingReason.Unprotected,
                    $"The record shows no {check} for more than {minutes} minutes after {words.Time(last)}, with hands in; the procedure asks for one at least every {minutes} minutes.",
                    [last],
                    "Stop, relieve and check again before work goes on."
                );
            }
            else if (OpenGap(reading, checks, work, longest) is { } since)
            {
                yield return new(
                    Verdict.Unproven,
                    reading.IsOpen ? FindingReason.InProgress : FindingReason.StepMissing,
                    $"The record shows no {check} after {words.Time(since)}, goes on for more than {minutes} minutes and does not show when the work stopped; the procedure asks for a check at least every {minutes} minutes.",
                    [since],
                    reading.IsOpen
                        ? "Stop, relieve and check again before work goes on."
                        : "Enter when hands-on work stopped, as a late entry."
                );
            }
        }
    }

    /// <summary>The entries by which a source was proven dead or checked again.</summary>
    public static ImmutableArray<OrderedEvent> Checks(TimelineReading reading, EnergySource source) =>
        [
            .. reading
                .Of(TimelineEventKind.IsolationVerified, TimelineEventKind.StoredEnergyRechecked)
                .Where(entry => entry.Event.SpeaksOf(source.Id)),
        ];

    /// <summary>The start of work, where no check stands before the end of it; or null.</summary>
    private static OrderedEvent? NeverChecked(TimelineReading reading, ImmutableArray<OrderedEvent> checks) =>
        reading.AnyWork.Intervals is [.., var last] works
        && !checks.Any(entry => last.Until is not { } until || entry.Place() < until)
            ? StartOf(reading, works[0])
            : null;

    /// <summary>In work whose end is not shown: the last check, else the start of the work, where the record goes on for too long after it; or null.</summary>
    private static OrderedEvent? OpenGap(
        TimelineReading reading,
        ImmutableArray<OrderedEvent> checks,
        TimelineInterval work,
        TimeSpan longest
    ) =>
        work.Until is null
        && (checks.LastOrDefault() ?? StartOf(reading, work)) is { } last
        && reading.Events[^1].Moment - last.Moment > longest
            ? last
            : null;

    /// <summary>The check, or the start of the work, after which the next check came too late for a stretch of work; or null.</summary>
    private static OrderedEvent? Gap(
        TimelineReading reading,
        ImmutableArray<OrderedEvent> checks,
        TimelineInterval work,
        TimeSpan longest
    )
    {
        var last = checks.LastOrDefault(entry => entry.Place() <= work.From) ?? StartOf(reading, work);
        foreach (var next in checks.Where(entry => work.From < entry.Place() && work.Contains(entry.Place())))
        {
            if (next.Moment - last.Moment > longest)
            {
                return last;
            }

            last = next;
        }

        return work.Until is { } until && until.Moment - last.Moment > longest ? last : null;
    }

    private static OrderedEvent StartOf(TimelineReading reading, TimelineInterval work) =>
        reading.Events.First(entry => entry.Place() == work.From);
}
