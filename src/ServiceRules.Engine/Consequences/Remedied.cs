using ServiceRules.Domain.Records;
using ServiceRules.Engine.Inference;

namespace ServiceRules.Engine.Consequences;

/// <summary>The remedy of a finding sets this quantity.</summary>
internal sealed record Remedied(string Finding, string Subject, bool OnUnit, MeasuredQuantity Quantity)
    : Fact;
