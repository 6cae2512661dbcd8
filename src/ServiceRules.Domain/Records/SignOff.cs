using ServiceRules.Domain.Timeline;

namespace ServiceRules.Domain.Records;

/// <summary>Who said the job is done, and when.</summary>
public sealed record SignOff(Id<Participant> By, RecordedTime At);
