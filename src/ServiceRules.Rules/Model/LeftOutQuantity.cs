using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Model;

/// <summary>A quantity of which a limit sheet says nothing on purpose, so that rules on it do not reach that kind of unit.</summary>
/// <param name="Quantity">The quantity.</param>
/// <param name="Why">Why, in plain words.</param>
public sealed record LeftOutQuantity(MeasuredQuantity Quantity, string Why);
