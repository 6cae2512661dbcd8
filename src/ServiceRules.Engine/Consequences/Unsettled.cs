using ServiceRules.Domain.Records;
using ServiceRules.Engine.Inference;

namespace ServiceRules.Engine.Consequences;

/// <summary>Something is still to be set on a unit, and setting it upsets this quantity.</summary>
internal sealed record Unsettled(string Unit, MeasuredQuantity Upsets, string Rule) : Fact;
