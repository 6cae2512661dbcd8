using ServiceRules.Domain.Records;

namespace ServiceRules.Domain.Verdicts;

/// <summary>The outcome of one unit.</summary>
public sealed record UnitOutcome(Id<UnitWork> Unit, Outcome Outcome);
