using System.Collections.Immutable;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>
/// The entries of a timeline as they are judged, of the job itself and of every record beside it: in judged order, an event that
/// was received more than once as one, and work that is taken up again as work.
/// </summary>
public static class JudgedEntries
{
    /// <summary>Of a timeline as it was entered.</summary>
    public static ImmutableArray<OrderedEvent> Of(ImmutableArray<TimelineEvent> timeline, SiteZone zone) =>
        Of(JudgedOrder.Of(timeline, zone));

    /// <summary>Of entries in judged order.</summary>
    public static ImmutableArray<OrderedEvent> Of(ImmutableArray<OrderedEvent> inOrder) =>
        ResumedWork.AsBegun(SharedIdentity.Once(inOrder));
}
