using System.Collections.Immutable;

namespace ServiceRules.Formats.Ledger;

/// <summary>What was done when a person was forgotten: the content of an erasure's entry.</summary>
/// <param name="Pseudonym">Whose name is no longer known.</param>
/// <param name="Contents">Digests of the contents that named the person and were removed, in ordinal order.</param>
public sealed record Erasure(string Pseudonym, ImmutableArray<string> Contents);
