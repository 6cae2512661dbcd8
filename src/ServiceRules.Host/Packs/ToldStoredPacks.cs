namespace ServiceRules.Host.Packs;

/// <summary>Packs and sheets that were checked, and may be put in force.</summary>
internal sealed record ToldStoredPacks(string Digest, DateTimeOffset Since);
