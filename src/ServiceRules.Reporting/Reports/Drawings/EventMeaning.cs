using ServiceRules.Domain;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Reporting.Reports.Drawings;

/// <summary>How an event shows on the lanes.</summary>
public static class EventMeaning
{
    public static Hold Of(TimelineEvent one)
    {
        ArgumentNullException.ThrowIfNull(one);
        return one.Kind switch
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
    }

    public static bool IsWorkEnd(TimelineEvent one)
    {
        ArgumentNullException.ThrowIfNull(one);
        return one.Kind == TimelineEventKind.WorkStopped;
    }

    /// <summary>Whether an event stands on the lane of an energy source.</summary>
    public static bool Concerns(Id<EnergySource> source, TimelineEvent one)
    {
        ArgumentNullException.ThrowIfNull(one);
        return one.Source switch
        {
            SourceReference.One named => named.Source == source,
            SourceReference.All or SourceReference.GroupBox => true,
            _ => one.Kind switch
            {
                TimelineEventKind.UnitsLowered or TimelineEventKind.UnitSupported => source.Text == "gravity",
                TimelineEventKind.ReelWedged => source.Text == "reel_rotation",
                TimelineEventKind.MachineStarted => true,
                _ => false,
            },
        };
    }
}
