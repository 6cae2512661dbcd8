using Microsoft.AspNetCore.Identity;
using ServiceRules.Application.Accounts;

namespace ServiceRules.Host.Accounts;

/// <summary>Accounts as ASP.NET Core Identity asks for them, over the store of this product.</summary>
internal sealed class IdentityStore(IAccountStore accounts, IdentityErrorDescriber errors, TimeProvider clock)
    : IUserPasswordStore<AccountUser>,
        IUserSecurityStampStore<AccountUser>,
        IUserLockoutStore<AccountUser>,
        IUserRoleStore<AccountUser>
{
    public Task<IdentityResult> CreateAsync(AccountUser user, CancellationToken cancellationToken) =>
        Done(
            accounts.Write(writing =>
            {
                if (user.FirstSecret is { } secret && !writing.TakeFirstSecret(secret, clock.GetUtcNow()))
                {
                    return errors.InvalidToken();
                }

                if (!writing.Add(user.Stored))
                {
                    // The secret is used up with it: whoever has it can draw another one.
                    return errors.DuplicateUserName(user.Stored.Name);
                }

                Note(user, writing);
                return null;
            })
        );

    public Task<IdentityResult> UpdateAsync(AccountUser user, CancellationToken cancellationToken) =>
        Done(
            accounts.Write(writing =>
            {
                if (writing.Replace(user.Stored) is not { } replaced)
                {
                    return errors.ConcurrencyFailure();
                }

                user.Stored = replaced;
                Note(user, writing);
                return null;
            })
        );

    public Task<IdentityResult> DeleteAsync(AccountUser user, CancellationToken cancellationToken) =>
        Done(
            accounts.Write<IdentityError?>(writing =>
            {
                writing.RemoveAccount(user.Stored.Id);
                Note(user, writing);
                return null;
            })
        );

    public Task<AccountUser?> FindByIdAsync(string userId, CancellationToken cancellationToken) =>
        Task.FromResult(User(accounts.Account(userId)));

    public Task<AccountUser?> FindByNameAsync(
        string normalizedUserName,
        CancellationToken cancellationToken
    ) => Task.FromResult(User(accounts.AccountNamed(normalizedUserName)));

    public Task<string> GetUserIdAsync(AccountUser user, CancellationToken cancellationToken) =>
        Task.FromResult(user.Stored.Id);

    public Task<string?> GetUserNameAsync(AccountUser user, CancellationToken cancellationToken) =>
        Task.FromResult<string?>(user.Stored.Name);

    public Task SetUserNameAsync(AccountUser user, string? userName, CancellationToken cancellationToken) =>
        Set(user, user.Stored with { Name = userName ?? "" });

    public Task<string?> GetNormalizedUserNameAsync(AccountUser user, CancellationToken cancellationToken) =>
        Task.FromResult<string?>(user.Stored.PlainName);

    public Task SetNormalizedUserNameAsync(
        AccountUser user,
        string? normalizedName,
        CancellationToken cancellationToken
    ) => Set(user, user.Stored with { PlainName = normalizedName ?? "" });

    public Task SetPasswordHashAsync(
        AccountUser user,
        string? passwordHash,
        CancellationToken cancellationToken
    ) => Set(user, user.Stored with { Password = passwordHash });

    public Task<string?> GetPasswordHashAsync(AccountUser user, CancellationToken cancellationToken) =>
        Task.FromResult(user.Stored.Password);

    public Task<bool> HasPasswordAsync(AccountUser user, CancellationToken cancellationToken) =>
        Task.FromResult(user.Stored.Password is not null);

    public Task SetSecurityStampAsync(AccountUser user, string stamp, CancellationToken cancellationToken) =>
        Set(user, user.Stored with { Stamp = stamp });

    public Task<string?> GetSecurityStampAsync(AccountUser user, CancellationToken cancellationToken) =>
        Task.FromResult<string?>(user.Stored.Stamp);

    public Task<DateTimeOffset?> GetLockoutEndDateAsync(
        AccountUser user,
        CancellationToken cancellationToken
    ) => Task.FromResult(user.Stored.IsLocked ? DateTimeOffset.MaxValue : user.Stored.LockedUntil);

    public Task SetLockoutEndDateAsync(
        AccountUser user,
        DateTimeOffset? lockoutEnd,
        CancellationToken cancellationToken
    ) => Set(user, user.Stored with { LockedUntil = lockoutEnd });

    public Task<int> IncrementAccessFailedCountAsync(AccountUser user, CancellationToken cancellationToken)
    {
        user.Stored = user.Stored with { Failures = user.Stored.Failures + 1 };
        return Task.FromResult(user.Stored.Failures);
    }

    public Task ResetAccessFailedCountAsync(AccountUser user, CancellationToken cancellationToken) =>
        Set(user, user.Stored with { Failures = 0 });

    public Task<int> GetAccessFailedCountAsync(AccountUser user, CancellationToken cancellationToken) =>
        Task.FromResult(user.Stored.Failures);

    public Task<bool> GetLockoutEnabledAsync(AccountUser user, CancellationToken cancellationToken) =>
        Task.FromResult(true);

    public Task SetLockoutEnabledAsync(AccountUser user, bool enabled, CancellationToken cancellationToken) =>
        Task.CompletedTask;

    public Task AddToRoleAsync(AccountUser user, string roleName, CancellationToken cancellationToken) =>
        Set(user, user.Stored with { Roles = user.Stored.Roles | Role(roleName) });

    public Task RemoveFromRoleAsync(AccountUser user, string roleName, CancellationToken cancellationToken) =>
        Set(user, user.Stored with { Roles = user.Stored.Roles & ~Role(roleName) });

    public Task<IList<string>> GetRolesAsync(AccountUser user, CancellationToken cancellationToken) =>
        Task.FromResult<IList<string>>([.. RoleWords.Words(user.Stored.Roles)]);

    public Task<bool> IsInRoleAsync(AccountUser user, string roleName, CancellationToken cancellationToken) =>
        Task.FromResult(Role(roleName) is var role and not Roles.None && user.Stored.Roles.HasFlag(role));

    public Task<IList<AccountUser>> GetUsersInRoleAsync(
        string roleName,
        CancellationToken cancellationToken
    ) =>
        Task.FromResult<IList<AccountUser>>([
            .. accounts
                .Accounts()
                .Where(account => (account.Roles & Role(roleName)) != Roles.None)
                .Select(account => new AccountUser(account)),
        ]);

    public void Dispose() { }

    // Identity hands over names of roles as it compares names.
    private static Roles Role(string name) => RoleWords.Read([name.ToLowerInvariant()]);

    private static AccountUser? User(Account? stored) => stored is null ? null : new AccountUser(stored);

    private static void Note(AccountUser user, IAccountWriting writing)
    {
        if (user.Act is { } act)
        {
            writing.Note(act);
            user.Act = null;
        }
    }

    private static Task Set(AccountUser user, Account changed)
    {
        user.Stored = changed;
        return Task.CompletedTask;
    }

    private static Task<IdentityResult> Done(IdentityError? error) =>
        Task.FromResult(error is null ? IdentityResult.Success : IdentityResult.Failed(error));
}
