using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Assessing;

/// <summary>A record with everything that judged it and what came out: enough to show, to sign and to judge again.</summary>
public sealed record Assessed(
    ServiceRecord Record,
    AssessmentContext Context,
    RuleBook Book,
    Assessment Assessment,
    EvidenceFiles Evidence
);
