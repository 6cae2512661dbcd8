using System.Security.Claims;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Accounts;

/// <summary>What a session knows of an account; made anew from the account at each request.</summary>
internal sealed class CallerPrincipal(
    UserManager<AccountUser> users,
    ServedSites sites,
    IOptions<IdentityOptions> options
) : UserClaimsPrincipalFactory<AccountUser>(users, options)
{
    protected override async Task<ClaimsIdentity> GenerateClaimsAsync(AccountUser user)
    {
        var identity = await base.GenerateClaimsAsync(user);
        identity.AddClaims(Caller.Claims(user.Stored, sites.SeenBy(user.Stored.Site)));
        return identity;
    }
}
