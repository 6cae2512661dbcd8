using System.Collections.Immutable;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>Stored energy that can build up again is checked at least as often as the procedure says, while anybody works.</summary>
internal static class RechecksMissed
{
    public static IEnumerable<TimelineFault> Faults(
        TimelineReading reading,
        ProtectionReading protection,
        TimelineWords words
    ) => protection.Sources.SelectMany(source => Faults(reading, source.Source, words));

    /// <summary>The checks of one source that came too late.</summary>
    public static IEnumerable<TimelineFault> Faults(
        TimelineReading reading,
        EnergySource source,
        TimelineWords words
    )
    {
        if (source.RecheckMinutes is not { } minutes)
        {
            yield break;
        }

        var checks = Checks(reading, source);
        foreach (var work in reading.AnyWork.Intervals)
        {
            var longest = TimeSpan.FromMinutes(minutes);
            if (Gap(checks, work, longest) is { } last)
            {
                yield return new(
                    Verdict.NotMet,
                    FindingReason.Unprotected,
                    $"The record shows no check of {TimelineWords.Named(source)} for more than {minutes} minutes of work after {words.Time(last)}; the procedure asks for one at least every {minutes} minutes.",
                    [last],
                    "Stop, relieve and check again before work goes on."
                );
            }
            else if (OpenGap(reading, checks, work, longest) is { } since)
            {
                yield return new(
                    Verdict.Unproven,
                    reading.IsOpen ? FindingReason.InProgress : FindingReason.StepMissing,
                    $"The record shows no check of {TimelineWords.Named(source)} after {words.Time(since)}, goes on for more than {minutes} minutes and does not show when the work stopped; the procedure asks for a check at least every {minutes} minutes.",
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

    /// <summary>In work whose end is not shown: the last check, where the record goes on for too long after it; or null.</summary>
    private static OrderedEvent? OpenGap(
        TimelineReading reading,
        ImmutableArray<OrderedEvent> checks,
        TimelineInterval work,
        TimeSpan longest
    ) =>
        work.Until is null
        && checks.LastOrDefault() is { } last
        && reading.Events[^1].Moment - last.Moment > longest
            ? last
            : null;

    /// <summary>The check after which the next came too late for a stretch of work, or null.</summary>
    private static OrderedEvent? Gap(
        ImmutableArray<OrderedEvent> checks,
        TimelineInterval work,
        TimeSpan longest
    )
    {
        var last = checks.LastOrDefault(entry => entry.Place() <= work.From);
        foreach (var next in checks.Where(entry => work.From < entry.Place() && work.Contains(entry.Place())))
        {
            if (last is not null && next.Moment - last.Moment > longest)
            {
                return last;
            }

            last = next;
        }

        return last is not null && work.Until is { } until && until.Moment - last.Moment > longest
            ? last
            : null;
    }
}
