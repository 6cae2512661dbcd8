using ServiceRules.Evidence;

namespace ServiceRules.Application.Assessing;

/// <summary>The four canonical documents (RFC 8785) that stand behind a report.</summary>
public sealed record EvidenceFiles(
    CanonicalDocument Record,
    CanonicalDocument Context,
    CanonicalDocument Rules,
    CanonicalDocument Assessment
)
{
    public const string RecordName = "record.json";
    public const string ContextName = "context.json";
    public const string RulesName = "rules.json";
    public const string AssessmentName = "assessment.json";
}
