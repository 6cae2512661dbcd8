namespace ServiceRules.Rules.Model;

/// <summary>What a rule or limit rests on.</summary>
/// <param name="Kind">Kind of ground.</param>
/// <param name="Source">
/// Title, body and year of a published source, or the register id of a maker's or club's document; absent for common
/// practice and from memory.
/// </param>
/// <param name="Clause">Clause or page.</param>
public sealed record Basis(BasisKind Kind, string? Source, string? Clause);
