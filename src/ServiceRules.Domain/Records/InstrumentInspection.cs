namespace ServiceRules.Domain.Records;

/// <summary>An inspection by eye and hand.</summary>
public sealed record InstrumentInspection(DateOnly Date, Condition Result);
