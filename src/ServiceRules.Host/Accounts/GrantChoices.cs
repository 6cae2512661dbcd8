namespace ServiceRules.Host.Accounts;

/// <summary>What a form lets an administrator choose of sites and people.</summary>
/// <param name="AreSeveral">Whether there is a site to choose.</param>
/// <param name="Sites">The sites, each with the people of its register.</param>
public sealed record GrantChoices(bool AreSeveral, IReadOnlyList<GrantChoices.OfSite> Sites)
{
    internal static GrantChoices Of(Sites.ServedSites sites) =>
        new(
            sites.AreSeveral,
            [
                .. sites.All.Select(site => new OfSite(
                    site.Name,
                    [.. site.Registers.People.Select(person => person.Id.Text)]
                )),
            ]
        );

    /// <summary>One site.</summary>
    public sealed record OfSite(string Name, IReadOnlyList<string> People);
}
