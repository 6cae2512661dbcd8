namespace ServiceRules.Host.Filing;

/// <summary>A site.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Zone">Its wall clock.</param>
internal sealed record ToldSite(string Name, string Zone);
