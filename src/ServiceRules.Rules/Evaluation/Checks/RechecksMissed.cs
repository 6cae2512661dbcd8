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
            if (Gap(checks, work, TimeSpan.FromMinutes(minutes)) is { } last)
            {
                yield return new(
                    Verdict.NotMet,
                    FindingReason.Unprotected,
                    $"The record shows no check of {TimelineWords.Named(source)} for more than {minutes} minutes of work after {words.Time(last)}; the procedure asks for one at least every {minutes} minutes.",
                    [last],
                    "Stop, relieve and check again before work goes on."
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

    /// <summary>The check after which the next came too late for a stretch of work, or null.</summary>
    private static OrderedEvent? Gap(
        ImmutableArray<OrderedEvent> checks,
        TimelineInterval work, TimeSpan longest)
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
