namespace ServiceRules.Host.Apis;

/// <summary>Every hold, lifted ones too.</summary>
/// <param name="Holds">In the order in which they were made.</param>
internal sealed record HoldsAnswer(IReadOnlyList<HoldAnswer> Holds);
