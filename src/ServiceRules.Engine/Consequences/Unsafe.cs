using ServiceRules.Domain.Verdicts;
using ServiceRules.Engine.Inference;

namespace ServiceRules.Engine.Consequences;

/// <summary>Safe work on a whole is not shown: nothing of it may go out.</summary>
internal sealed record Unsafe(string Whole, Effect Effect, string Rule) : Fact;
