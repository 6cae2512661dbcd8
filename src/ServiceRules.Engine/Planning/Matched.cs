using ServiceRules.Engine.Inference;

namespace ServiceRules.Engine.Planning;

/// <summary>The applicability of this number matched the profile.</summary>
internal sealed record Matched(int Applicability) : Fact;
