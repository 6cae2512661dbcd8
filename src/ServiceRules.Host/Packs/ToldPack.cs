namespace ServiceRules.Host.Packs;

/// <summary>One pack.</summary>
internal sealed record ToldPack(string Id, string Version, string Title, int Rules, int Citations);
