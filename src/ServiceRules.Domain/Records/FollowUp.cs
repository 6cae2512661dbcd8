using ServiceRules.Domain.Timeline;

namespace ServiceRules.Domain.Records;

/// <summary>The re-check after first use.</summary>
public sealed record FollowUp(Id<Participant> By, RecordedTime At, Condition Result, string? Note);
