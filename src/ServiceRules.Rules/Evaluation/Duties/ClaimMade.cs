using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>An exemption claimed, and the entry that claims it.</summary>
internal sealed record ClaimMade(OrderedEvent Entry, ExemptionClaim Claim);
