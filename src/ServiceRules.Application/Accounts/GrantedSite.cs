namespace ServiceRules.Application.Accounts;

/// <summary>Of which sites an account or a key is: of one, by its name, or of every one.</summary>
public static class GrantedSite
{
    /// <summary>Of every site; no site is called so.</summary>
    public const string Every = "*";

    /// <summary>What goes with the roles in the act that tells of them.</summary>
    public static string Told(Roles roles, string? site) =>
        site is null ? RoleWords.Text(roles)
        : site == Every ? RoleWords.Text(roles) + " at every site"
        : RoleWords.Text(roles) + $" at `{site}`";
}
