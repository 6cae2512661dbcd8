using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine.Inference;

namespace ServiceRules.Engine.Consequences;

/// <summary>A rule keeps a subject from release.</summary>
internal sealed record Kept(string Subject, Effect Effect, string Rule) : Fact;
