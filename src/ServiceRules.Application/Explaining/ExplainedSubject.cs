using System.Collections.Immutable;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine.Applying;

namespace ServiceRules.Application.Explaining;

/// <summary>A rule on one subject of a record: why it applies or not, and what came of it.</summary>
/// <param name="Reach">Why it applies or not.</param>
/// <param name="Finding">What came of it; null: it does not apply, or is not in force.</param>
/// <param name="Limits">What its readings are held against, unit by unit; empty where nothing is measured.</param>
public sealed record ExplainedSubject(
    SubjectReach Reach,
    Finding? Finding,
    ImmutableArray<LimitBehind> Limits
);
