using System.Collections.Immutable;
using ServiceRules.Application.Comparing;

namespace ServiceRules.Application.Explaining;

/// <summary>A statement of a lower layer whose place was taken, and what the one above it says differently.</summary>
/// <param name="Below">The statement below.</param>
/// <param name="Tightened">What the next layer made of it.</param>
public sealed record ReplacedRule(StandingRule Below, ImmutableArray<PartChange> Tightened);
