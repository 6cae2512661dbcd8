using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation;

/// <summary>A timeline event in judged order.</summary>
/// <param name="Event">The event.</param>
/// <param name="Index">Its index in the record: the evidence pointer is <c>/timeline/{Index}</c>.</param>
/// <param name="Moment">
/// Its instant; for a time without offset, its reading in the site's zone (the earlier of two).
/// </param>
public sealed record OrderedEvent(TimelineEvent Event, int Index, Moment Moment);
