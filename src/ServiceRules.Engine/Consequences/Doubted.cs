using ServiceRules.Domain.Records;
using ServiceRules.Engine.Inference;

namespace ServiceRules.Engine.Consequences;

/// <summary>A met finding lost its proof, since a reading it rests on is stale.</summary>
internal sealed record Doubted(string Finding, string Unit, MeasuredQuantity Quantity, string Rule) : Fact;
