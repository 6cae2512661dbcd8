using ServiceRules.Application.Library;

namespace ServiceRules.Application.Accounts;

/// <summary>What an account or a key is given.</summary>
public static class Grant
{
    /// <summary>Names of accounts and of keys are not longer.</summary>
    public const int NameMost = 64;

    /// <summary>What is wrong with it where there is one site; null when nothing.</summary>
    public static string? Fault(Roles roles, string? person, SiteRegisters site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return RolesFault(roles) ?? PersonFault(roles, person, site);
    }

    /// <summary>What is wrong with it where there are several sites; null when nothing.</summary>
    /// <param name="roles">What it may do.</param>
    /// <param name="person">Whom it stands for.</param>
    /// <param name="at">Of which site it is, see <see cref="GrantedSite"/>.</param>
    /// <param name="sites">The sites whose registers are at hand.</param>
    public static string? Fault(Roles roles, string? person, string? at, IEnumerable<SiteRegisters> sites)
    {
        ArgumentNullException.ThrowIfNull(sites);
        if (RolesFault(roles) is { } fault)
        {
            return fault;
        }

        if (at == GrantedSite.Every)
        {
            return roles.HasFlag(Roles.Technician)
                    ? "a technician is of one site; accepted: the site in whose register the person stands"
                : person is not null
                    ? "a person stands in the register of one site; accepted: that site, or nobody of a register"
                : null;
        }

        var known = sites.ToList();
        return known.Find(site => site.Name == at) is { } own
            ? PersonFault(roles, person, own)
            : $"no site is given, or one that is not known; accepted: {string.Join(", ", known.Select(site => $"`{site.Name}`"))}, or `{GrantedSite.Every}` for every one";
    }

    private static string? RolesFault(Roles roles) =>
        roles is Roles.None
            ? $"no role is given, or one that is not known; accepted: {string.Join(", ", RoleWords.All)}"
            : null;

    private static string? PersonFault(Roles roles, string? person, SiteRegisters site) =>
        person is not null && site.People.All(one => one.Id.Text != person)
            ? "the person is not in the register of the site; accepted: one of those, or nobody"
        : person is null && roles.HasFlag(Roles.Technician)
            ? "a technician sees what names the person, so that one is needed; accepted: a person of the register"
        : null;
}
