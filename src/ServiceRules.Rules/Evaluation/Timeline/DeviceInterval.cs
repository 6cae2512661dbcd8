using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>A lock or tag from the entry that puts it on to the entry that takes it off.</summary>
/// <param name="Device">Which lock or tag.</param>
/// <param name="Applied">The entry that puts it on.</param>
/// <param name="Removed">The entry that takes it off; null: the record shows it still on.</param>
public sealed record DeviceInterval(Id<LockDevice> Device, OrderedEvent Applied, OrderedEvent? Removed)
{
    /// <summary>Who put it on.</summary>
    public Id<Participant> Person => Applied.Event.Actor;

    /// <summary>A tag, not a lock.</summary>
    public bool IsTag => Applied.Event.Kind == TimelineEventKind.TagApplied;

    /// <summary>It hangs on the group box.</summary>
    public bool IsOnGroupBox => Applied.Event.Source is SourceReference.GroupBox;

    /// <summary>It holds the isolator in a safe position: one recorded as on is held on.</summary>
    public bool HoldsOff => Applied.Event.Position != IsolatorPosition.On;

    /// <summary>A tag that hangs where the lock would.</summary>
    public bool IsTagAtLockPoint => IsTag && Applied.Event.AtLockPoint;

    /// <summary>The stretch of the timeline.</summary>
    public TimelineInterval Interval => new(Applied.Place(), Removed?.Place());

    /// <summary>Whether it hangs on the isolator of a source.</summary>
    public bool IsOn(Id<EnergySource> source) => Applied.Event.SpeaksOf(source);
}
