using Microsoft.AspNetCore.Identity;
using ServiceRules.Application.Accounts;
using ServiceRules.Host.Providers;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Accounts;

/// <summary>Where accounts are made and changed. What is done is kept as an act, in the same transaction.</summary>
internal sealed class AccountDesk(
    IAccountStore accounts,
    UserManager<AccountUser> users,
    ServedSites sites,
    Provider provider,
    TimeProvider clock
)
{
    /// <summary>How the accounts of a demo begin, and no others.</summary>
    public const string DemoStart = "demo-";

    private const int PasswordMost = 256;

    private static readonly DeskOutcome NoSuch = DeskOutcome.Refused("there is no such account");

    /// <summary>Makes an administrator with the secret that the machine told.</summary>
    public async Task<DeskOutcome> FirstAsync(string secret, string name, string password)
    {
        if (!FirstSecrets.IsGood(accounts, secret, clock.GetUtcNow()))
        {
            return DeskOutcome.Refused(
                "the secret is not, or no longer, good; accepted: the one that was told last on the machine, within an hour"
            );
        }

        var user = New(name, Roles.Administrator, null, sites.AreSeveral ? GrantedSite.Every : null);
        user.FirstSecret = DrawnSecret.Hash(secret);
        user.Act = Act(AccountAct.FirstAdministrator, AccountAct.Nobody, user.Stored);
        return await MakeAsync(user, password);
    }

    /// <summary>Makes an account with a password that is told once, and changed at first sign-in.</summary>
    public async Task<DeskOutcome> AddAsync(
        string name,
        Roles roles,
        string? person,
        string by,
        string? site = null
    )
    {
        if (sites.Fault(roles, person, site) is { } fault)
        {
            return DeskOutcome.Refused(fault);
        }

        var password = DrawnSecret.Password();
        var user = New(name, roles, person, site);
        user.Stored = user.Stored with { MustChange = true };
        user.Act = Act(AccountAct.AccountMade, by, user.Stored) with
        {
            Detail = GrantedSite.Told(roles, site),
        };
        return await MakeAsync(user, password) with { Secret = password };
    }

    /// <summary>Makes an account without a password, for somebody whom the provider vouches for.</summary>
    public async Task<DeskOutcome> AddElsewhereAsync(
        string name,
        string called,
        Roles roles,
        string? person,
        string by,
        string? site = null
    )
    {
        if (sites.Fault(roles, person, site) is { } fault)
        {
            return DeskOutcome.Refused(fault);
        }

        var user = New(name, roles, person, site);
        if (CallFault(user.Stored, called, out var elsewhere) is { } unfit)
        {
            return DeskOutcome.Refused(unfit);
        }

        user.Stored = user.Stored with { Elsewhere = elsewhere };
        user.Act = Act(AccountAct.AccountMade, by, user.Stored) with
        {
            Detail = GrantedSite.Told(roles, site),
        };
        return await MakeAsync(user, null);
    }

    /// <summary>Has somebody sign in elsewhere from now on, and ends every session: the password is gone.</summary>
    public async Task<DeskOutcome> SignInElsewhereAsync(string id, string called, string by)
    {
        if (await users.FindByIdAsync(id) is not { } user)
        {
            return NoSuch;
        }

        if (CallFault(user.Stored, called, out var elsewhere) is { } unfit)
        {
            return DeskOutcome.Refused(unfit);
        }

        user.Stored = user.Stored with
        {
            Elsewhere = elsewhere,
            Password = null,
            MustChange = false,
            LockedUntil = null,
            Failures = 0,
        };
        user.Act = Act(AccountAct.SignsInElsewhere, by, user.Stored);
        return Outcome(await users.UpdateSecurityStampAsync(user));
    }

    /// <summary>Makes an account, or gives it another password, that is told once and need not be changed: of a demo.</summary>
    public async Task<string> PutAsync(
        string name,
        Roles roles,
        string? person,
        string by,
        string? site = null
    )
    {
        var password = DrawnSecret.Password();
        if (await users.FindByNameAsync(name) is { } user)
        {
            user.Stored = user.Stored with
            {
                Roles = roles,
                Person = person,
                Site = site,
                Elsewhere = null,
                Password = users.PasswordHasher.HashPassword(user, password),
                IsLocked = false,
                LockedUntil = null,
                Failures = 0,
                MustChange = false,
            };
            user.Act = Act(AccountAct.PasswordReset, by, user.Stored);
            _ = await users.UpdateSecurityStampAsync(user);
        }
        else
        {
            user = New(name, roles, person, site);
            user.Act = Act(AccountAct.AccountMade, by, user.Stored) with
            {
                Detail = GrantedSite.Told(roles, site),
            };
            _ = await users.CreateAsync(user, password);
        }

        return password;
    }

    public async Task<DeskOutcome> GrantAsync(
        string id,
        Roles roles,
        string? person,
        string by,
        string? site = null
    )
    {
        if (sites.Fault(roles, person, site) is { } fault)
        {
            return DeskOutcome.Refused(fault);
        }

        if (await users.FindByIdAsync(id) is not { } user)
        {
            return NoSuch;
        }

        if (!roles.HasFlag(Roles.Administrator) && IsLast(user.Stored))
        {
            return LastAdministrator();
        }

        user.Stored = user.Stored with { Roles = roles, Person = person, Site = site };
        user.Act = Act(AccountAct.RolesChanged, by, user.Stored) with
        {
            Detail = GrantedSite.Told(roles, site),
        };
        return Outcome(await users.UpdateAsync(user));
    }

    /// <summary>Keeps somebody out, and ends every session.</summary>
    public async Task<DeskOutcome> LockAsync(string id, string by)
    {
        if (await users.FindByIdAsync(id) is not { } user)
        {
            return NoSuch;
        }

        if (IsLast(user.Stored))
        {
            return LastAdministrator();
        }

        user.Stored = user.Stored with { IsLocked = true };
        user.Act = Act(AccountAct.AccountLocked, by, user.Stored);
        return Outcome(await users.UpdateSecurityStampAsync(user));
    }

    public async Task<DeskOutcome> UnlockAsync(string id, string by)
    {
        if (await users.FindByIdAsync(id) is not { } user)
        {
            return NoSuch;
        }

        user.Stored = user.Stored with { IsLocked = false, LockedUntil = null, Failures = 0 };
        user.Act = Act(AccountAct.AccountUnlocked, by, user.Stored);
        return Outcome(await users.UpdateAsync(user));
    }

    /// <summary>
    /// Gives another password, told once and changed at the next sign-in, and ends every session. Whoever signed in elsewhere
    /// signs in here then.
    /// </summary>
    public async Task<DeskOutcome> ResetAsync(string id, string by)
    {
        if (await users.FindByIdAsync(id) is not { } user)
        {
            return NoSuch;
        }

        var password = DrawnSecret.Password();
        user.Stored = user.Stored with
        {
            Elsewhere = null,
            Password = users.PasswordHasher.HashPassword(user, password),
            MustChange = true,
            LockedUntil = null,
            Failures = 0,
        };
        user.Act = Act(AccountAct.PasswordReset, by, user.Stored);
        return Outcome(await users.UpdateSecurityStampAsync(user)) with { Secret = password };
    }

    public async Task<DeskOutcome> RemoveAsync(string id, string by)
    {
        if (await users.FindByIdAsync(id) is not { } user)
        {
            return NoSuch;
        }

        if (IsLast(user.Stored))
        {
            return LastAdministrator();
        }

        user.Act = Act(AccountAct.AccountRemoved, by, user.Stored);
        return Outcome(await users.DeleteAsync(user));
    }

    /// <summary>Removes the accounts of a demo, whoever is left then.</summary>
    public async Task EndDemoAsync(string by)
    {
        foreach (
            var account in accounts
                .Accounts()
                .Where(one => one.Name.StartsWith(DemoStart, StringComparison.OrdinalIgnoreCase))
        )
        {
            _ = await users.DeleteAsync(
                new AccountUser(account) { Act = Act(AccountAct.AccountRemoved, by, account) }
            );
        }
    }

    /// <summary>Changes the password of whoever is signed in, and ends every other session.</summary>
    public async Task<DeskOutcome> ChangePasswordAsync(AccountUser user, string old, string given)
    {
        if (PasswordFault(given) is { } fault)
        {
            return DeskOutcome.Refused(fault);
        }

        if (user.Stored.Password is null)
        {
            return DeskOutcome.Refused("the account signs in elsewhere and has no password here");
        }

        if (old == given)
        {
            return DeskOutcome.Refused("the new password is the old one; accepted: another");
        }

        if (await users.IsLockedOutAsync(user) || old.Length > PasswordMost)
        {
            return DeskOutcome.Refused("the old password is wrong, or was wrong too often");
        }

        if (!await users.CheckPasswordAsync(user, old))
        {
            _ = await users.AccessFailedAsync(user);
            return DeskOutcome.Refused("the old password is wrong, or was wrong too often");
        }

        var by = AccountAct.OfAccount(user.Stored.Id);
        user.Stored = user.Stored with { MustChange = false, Failures = 0 };
        user.Act = Act(AccountAct.PasswordChanged, by, user.Stored);
        return Outcome(await users.ChangePasswordAsync(user, old, given));
    }

    /// <summary>Ends every session of somebody.</summary>
    public async Task EndSessionsAsync(AccountUser user) => _ = await users.UpdateSecurityStampAsync(user);

    public static string? PasswordFault(string password) =>
        password.Length > PasswordMost
            ? $"the password has more than {PasswordMost} characters; accepted: 12 to {PasswordMost}"
            : null;

    /// <param name="user">Who is made.</param>
    /// <param name="password">Null: somebody who signs in elsewhere.</param>
    private async Task<DeskOutcome> MakeAsync(AccountUser user, string? password) =>
        password is not null && PasswordFault(password) is { } fault ? DeskOutcome.Refused(fault)
        : user.Stored.Name.Length is 0 or > Grant.NameMost
            ? DeskOutcome.Refused(
                $"the name is empty or too long; accepted: 1 to {Grant.NameMost} characters"
            )
        : user.Stored.Name.StartsWith(DemoStart, StringComparison.OrdinalIgnoreCase)
            ? DeskOutcome.Refused(
                $"names that begin with `{DemoStart}` are those of a demo; accepted: another"
            )
        : Outcome(password is null ? await users.CreateAsync(user) : await users.CreateAsync(user, password));

    private string? CallFault(Account account, string called, out Elsewhere? elsewhere)
    {
        elsewhere = provider.Settings?.Of(called);
        return provider.Settings is null
                ? "there is no place here where people sign in elsewhere; accepted: a password"
            : elsewhere is null
                ? $"what {provider.Name} calls them is empty or too long; accepted: 1 to {Elsewhere.NameMost} characters"
            : accounts.AccountElsewhere(elsewhere) is { } other && other.Id != account.Id
                ? $"another account is open to whom {provider.Name} calls so; accepted: another name, or that account changed first"
            : null;
    }

    private AccountUser New(string name, Roles roles, string? person, string? site) =>
        new(
            new Account(DrawnSecret.Id(), name, users.NormalizeName(name) ?? "", roles, clock.GetUtcNow())
            {
                Person = person,
                Site = site,
            }
        );

    private AccountAct Act(string what, string by, Account about) =>
        new(clock.GetUtcNow(), what, by, AccountAct.OfAccount(about.Id));

    private bool IsLast(Account account) =>
        account.Roles.HasFlag(Roles.Administrator)
        && !accounts
            .Accounts()
            .Any(other =>
                other.Id != account.Id && !other.IsLocked && other.Roles.HasFlag(Roles.Administrator)
            );

    private static DeskOutcome LastAdministrator() =>
        DeskOutcome.Refused("nobody could give accounts any more: this is the last administrator");

    private static DeskOutcome Outcome(IdentityResult result) =>
        new([.. result.Errors.Select(error => error.Description)]);
}
