using ServiceRules.Engine.Inference;

namespace ServiceRules.Engine.Consequences;

/// <summary>A unit is part of the set, the set of the job; both by subject key.</summary>
internal sealed record PartOf(string Part, string Whole) : Fact;
