using ServiceRules.Domain.Records;
using ServiceRules.Engine.Inference;

namespace ServiceRules.Engine.Consequences;

/// <summary>What was read of a quantity of a unit no longer holds, as the finding of this rule shows.</summary>
internal sealed record StaleReading(string Unit, MeasuredQuantity Quantity, string Rule) : Fact;
