using Microsoft.AspNetCore.Identity;
using ServiceRules.Application.Accounts;

namespace ServiceRules.Host.Accounts;

/// <summary>Where somebody is asked for name and password.</summary>
internal sealed class SignInDesk(
    IAccountStore accounts,
    UserManager<AccountUser> users,
    SignInManager<AccountUser> signing,
    SignInTurns turns,
    TimeProvider clock
)
{
    // Whether there is such an account, or it is locked, is told to nobody who has no password.
    private static readonly DeskOutcome Wrong = DeskOutcome.Refused(
        "name or password is wrong, or the account is locked; after five wrong tries it is, for 15 minutes"
    );

    /// <summary>Null where too many others are at it.</summary>
    public Task<DeskOutcome?> SignInAsync(string name, string password, CancellationToken stop) =>
        turns.TakeAsync<DeskOutcome>(
            async () =>
                name.Length is 0 or > Grant.NameMost || AccountDesk.PasswordFault(password) is not null
                    ? Wrong
                    : await TryAsync(name, password),
            stop
        );

    public Task SignInAsync(AccountUser user) => signing.SignInAsync(user, isPersistent: false);

    private async Task<DeskOutcome> TryAsync(string name, string password)
    {
        if (await users.FindByNameAsync(name) is not { } user)
        {
            TakeAsLong(password);
            return Wrong;
        }

        // Whoever signs in elsewhere has no password that could be right.
        if (user.Stored.Password is null || await users.IsLockedOutAsync(user))
        {
            TakeAsLong(password);
            return Wrong;
        }

        var outcome = await signing.PasswordSignInAsync(
            user,
            password,
            isPersistent: false,
            lockoutOnFailure: true
        );
        if (outcome.IsLockedOut)
        {
            _ = accounts.Write(writing =>
            {
                writing.Note(
                    new(
                        clock.GetUtcNow(),
                        AccountAct.SignInLocked,
                        AccountAct.Nobody,
                        AccountAct.OfAccount(user.Stored.Id)
                    )
                );
                return true;
            });
        }

        return outcome.Succeeded ? DeskOutcome.Done : Wrong;
    }

    // Else the time of the answer would tell which names there are.
    private void TakeAsLong(string password) =>
        _ = users.PasswordHasher.HashPassword(
            new AccountUser(new Account("", "", "", Roles.None, default)),
            password
        );
}
