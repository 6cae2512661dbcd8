using System.Collections.Immutable;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>A lock or tag went on each isolating device after it was turned off, and was still on when hands went in.</summary>
internal static class DeviceOnEachIsolatorDuty
{
    public static CheckOutcome Judge(DutyFrame duty)
    {
        if (SourcesKnown.LackingIsolated(duty) is { } lacking)
        {
            return lacking;
        }

        var leadUp = LeadUp.ToFirstWork(duty);
        return SourceStep.Judge(
            leadUp,
            [.. from source in leadUp.Sources where source.HasIsolator select Step(leadUp, source.Source)],
            "a lock or tag put on the isolator"
        );
    }

    private static SourceStep Step(LeadUp leadUp, EnergySource source)
    {
        var off = SourceReading.Isolations(leadUp.Duty.Reading, source).FirstOrDefault(leadUp.Contains);
        var on = DevicesOn.Of(leadUp.Duty, source).ToImmutableArray();
        var before = on.FirstOrDefault(leadUp.Contains);
        var step = SourceStep.Of(
            leadUp,
            source,
            on.Where(entry => off is null ? !leadUp.Contains(entry) : entry.Place() > off.Place())
        );
        if (step.Shown is [.., var last] && (leadUp.Work is not null || leadUp.CanStillBeDone))
        {
            var (still, removed) = DevicesOn.StillOn(leadUp, source, step.Shown);
            return !still.IsEmpty
                ? step with
                {
                    Shown = still,
                }
                : step with
                {
                    Shown = [],
                    Late = null,
                    Why = removed is null
                        ? string.Empty
                        : $" and left on (put on at {leadUp.Duty.Words.Time(last)}, {Gone(removed)} at {leadUp.Duty.Words.Time(removed)})",
                    Instead = removed is null ? [last] : [last, removed],
                };
        }

        return step.Shown.IsEmpty && before is not null
            ? step with
            {
                Late = null,
                Why = off is null
                    ? $" after it was turned off (put on at {leadUp.Duty.Words.Time(before)}, and never shown off)"
                    : $" after it was turned off at {leadUp.Duty.Words.Time(off)} (put on at {leadUp.Duty.Words.Time(before)})",
                Instead = off is null ? [before] : [before, off],
            }
            : step;
    }

    private static string Gone(OrderedEvent entry) =>
        entry.Event.Kind is TimelineEventKind.LockRemoved or TimelineEventKind.TagRemoved
            ? "off again"
            : "plugged in again";
}
