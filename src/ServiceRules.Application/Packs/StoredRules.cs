namespace ServiceRules.Application.Packs;

/// <summary>Packs and sheets that were checked, and may come to judge here.</summary>
/// <param name="Digest">Names them.</param>
/// <param name="At">When they were stored.</param>
public sealed record StoredRules(string Digest, DateTimeOffset At);
