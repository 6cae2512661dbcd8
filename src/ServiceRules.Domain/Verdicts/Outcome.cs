using System.Collections.Immutable;

namespace ServiceRules.Domain.Verdicts;

/// <summary>A disposition and the rules (identity texts, ordinal order) that keep it from release.</summary>
public sealed record Outcome(Disposition Disposition, ImmutableArray<string> Because);
