using ServiceRules.Domain.Timeline;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>One event at its place in the order of instants; events of one instant as entered.</summary>
internal sealed record Step(TimelineEvent Event, Moment At, int Place)
{
    public TimelineEventKind Kind => Event.Kind;

    /// <summary>No entry says so: it follows from another.</summary>
    public bool IsAssumed { get; init; }

    public string By => Event.Actor.Text;

    public string? Device => Event.Lock?.Text;

    public bool IsDeviceOn => Kind is TimelineEventKind.LockApplied or TimelineEventKind.TagApplied;

    public bool IsDeviceOff => Kind is TimelineEventKind.LockRemoved or TimelineEventKind.TagRemoved;

    public bool IsForTest => IsDeviceOff && Event.Reason == "test";

    /// <summary>An isolator moved to off; the vocabulary has no other meaning unless the position says so.</summary>
    public bool IsIsolation =>
        Kind == TimelineEventKind.IsolatorOperated && Event.Position != IsolatorPosition.On;

    public bool IsOnBox => Event.Source is SourceReference.GroupBox;

    public bool Names(string person) => Event.Others.Any(other => other.Text == person);

    public bool IsOf(string source) =>
        Event.Source switch
        {
            SourceReference.All => true,
            SourceReference.One one => one.Source.Text == source,
            _ => false,
        };

    public bool Before(Step other) => Place < other.Place;
}
