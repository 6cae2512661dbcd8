using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Reporting.Reports.Drawings;

/// <summary>How an event shows on the lanes.</summary>
internal static class EventMeaning
{
    public static Hold Of(TimelineEvent one) =>
        one.Kind switch
        {
            // Its own words deny it: it takes nothing away and proves nothing.
            _ when SaidOtherwise.By(one) => Hold.None,
            TimelineEventKind.IsolatorOperated when one.Position == IsolatorPosition.On => Hold.Given,
            TimelineEventKind.IsolatorOperated
            or TimelineEventKind.PlugRemoved
            or TimelineEventKind.PlugControlConfirmed
            or TimelineEventKind.LockApplied
            or TimelineEventKind.TagApplied
            or TimelineEventKind.StoredEnergyReleased
            or TimelineEventKind.ReelWedged
            or TimelineEventKind.UnitSupported
            or TimelineEventKind.UnitsLowered
            or TimelineEventKind.TestEnded => Hold.Taken,
            TimelineEventKind.IsolationVerified or TimelineEventKind.StoredEnergyRechecked => Hold.Proven,
            TimelineEventKind.LockRemoved
            or TimelineEventKind.TagRemoved
            or TimelineEventKind.MachineStarted
            or TimelineEventKind.TestEnergised => Hold.Given,
            _ => Hold.None,
        };

    public static bool IsWorkEnd(TimelineEvent one) => one.Kind == TimelineEventKind.WorkStopped;
}
