using System.Collections.Immutable;
using ServiceRules.Application.Assessing;

namespace ServiceRules.Application.Explaining;

/// <summary>Why a record was judged as it was.</summary>
/// <param name="Assessed">The record and its assessment.</param>
/// <param name="Rules">The rules asked about, by identity.</param>
public sealed record Explained(Assessed Assessed, ImmutableArray<ExplainedRule> Rules);
