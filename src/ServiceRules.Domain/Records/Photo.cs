namespace ServiceRules.Domain.Records;

/// <summary>A photo kept elsewhere, named by its SHA-256 in lower-case hex.</summary>
public sealed record Photo(string Sha256, string Shows, Id<UnitWork>? Unit);
