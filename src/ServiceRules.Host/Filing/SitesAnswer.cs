namespace ServiceRules.Host.Filing;

/// <summary>Sites, as a list.</summary>
internal sealed record SitesAnswer(IReadOnlyList<ToldSite> Items);
