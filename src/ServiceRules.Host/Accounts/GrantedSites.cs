using System.Collections.Immutable;
using ServiceRules.Application.Accounts;

namespace ServiceRules.Host.Accounts;

/// <summary>Which sites somebody sees who was granted one.</summary>
internal static class GrantedSites
{
    /// <param name="site">As accounts name it, see <see cref="GrantedSite"/>; null: none.</param>
    /// <returns>Their names; null: every one.</returns>
    public static ImmutableArray<string>? Of(string? site) =>
        site == GrantedSite.Every ? null
        : site is { } own ? [own]
        : [];
}
