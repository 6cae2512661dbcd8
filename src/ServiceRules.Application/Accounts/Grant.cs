using ServiceRules.Application.Library;

namespace ServiceRules.Application.Accounts;

/// <summary>What an account or a key is given.</summary>
public static class Grant
{
    /// <summary>Names of accounts and of keys are not longer.</summary>
    public const int NameMost = 64;

    /// <summary>What is wrong with it; null when nothing.</summary>
    public static string? Fault(Roles roles, string? person, SiteRegisters site)
    {
        ArgumentNullException.ThrowIfNull(site);
        return roles is Roles.None
                ? $"no role is given, or one that is not known; accepted: {string.Join(", ", RoleWords.All)}"
            : person is not null && site.People.All(one => one.Id.Text != person)
                ? "the person is not in the register of the site; accepted: one of those, or nobody"
            : person is null && roles.HasFlag(Roles.Technician)
                ? "a technician sees what names the person, so that one is needed; accepted: a person of the register"
            : null;
    }
}
