using ServiceRules.Engine.Inference;

namespace ServiceRules.Engine.Consequences;

/// <summary>The remedy of a finding must wait until another rule is settled on a unit.</summary>
internal sealed record Waits(string Finding, string Unit, string Rule) : Fact;
