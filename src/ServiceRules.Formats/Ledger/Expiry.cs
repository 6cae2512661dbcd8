using System.Collections.Immutable;

namespace ServiceRules.Formats.Ledger;

/// <summary>Contents whose time was over, or that were given up as lost: the content of an expiry's entry.</summary>
/// <param name="Contents">Digests of what was removed, in ordinal order.</param>
public sealed record Expiry(ImmutableArray<string> Contents);
