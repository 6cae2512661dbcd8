using ServiceRules.Evidence;

namespace ServiceRules.Application.SafeWork;

/// <summary>The three canonical documents (RFC 8785) that stand behind the report of a period.</summary>
public sealed record PeriodFiles(CanonicalDocument Jobs, CanonicalDocument Rules, CanonicalDocument Summary)
{
    public const string JobsName = "jobs.json";
    public const string RulesName = "rules.json";
    public const string SummaryName = "summary.json";
}
