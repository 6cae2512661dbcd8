namespace ServiceRules.Domain.Records;

/// <summary>A person and their part in the job. People stand here by pseudonymous identity.</summary>
public sealed record Participant(Id<Participant> Id, JobRole Role);
