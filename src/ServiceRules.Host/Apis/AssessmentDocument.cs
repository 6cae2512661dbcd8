namespace ServiceRules.Host.Apis;

/// <summary>An answer that is an assessment, for the description of the interface.</summary>
[Published("assessment")]
internal sealed class AssessmentDocument;
