using System.Security.Claims;
using Microsoft.AspNetCore.Identity;
using ServiceRules.Application.Accounts;
using ServiceRules.Host.Accounts;

namespace ServiceRules.Host.Providers;

/// <summary>Where somebody comes whom the provider vouches for: an account lets them in, and nothing else does.</summary>
internal sealed class ProviderDesk(
    ProviderSettings provider,
    IAccountStore accounts,
    SignInManager<AccountUser> signing
)
{
    private const string Verified = "email_verified";

    /// <summary>Begins a session of the account that stands under what the provider calls them.</summary>
    public async Task<DeskOutcome> SignInAsync(ClaimsPrincipal told)
    {
        if (Called(told) is not { } called)
        {
            return DeskOutcome.Refused(
                provider.Claim == ProviderSettings.Mail
                    ? $"{provider.Name} told no address of yours that it has verified"
                    : $"{provider.Name} told nothing that an account could stand under"
            );
        }

        // Whether there is such an account and it is locked is told to nobody: what the provider calls them, they know.
        if (accounts.AccountElsewhere(called) is not { IsLocked: false } account)
        {
            return DeskOutcome.Refused(
                $"no account is open to whom {provider.Name} calls `{called.Name}`; accounts are made by an administrator"
            );
        }

        await signing.SignInAsync(new AccountUser(account), isPersistent: false);
        return DeskOutcome.Done;
    }

    private Elsewhere? Called(ClaimsPrincipal told) =>
        told.FindAll(provider.Claim).Take(2).ToList() is [var only] && IsTheirs(told)
            ? provider.Of(only.Value)
            : null;

    // Else somebody could write the address of another into their own account there.
    private bool IsTheirs(ClaimsPrincipal told) =>
        provider.Claim != ProviderSettings.Mail
        || string.Equals(told.FindFirstValue(Verified), "true", StringComparison.OrdinalIgnoreCase);
}
