using Microsoft.Extensions.DependencyInjection;
using ServiceRules.Application.Accounts;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Accounts;

/// <summary>Sees to it that somebody can come in: at the very first start, and in a demo.</summary>
internal static class WaysInMaking
{
    private const string DemoKeyName = AccountDesk.DemoStart + "key";

    // People of the invented shop.
    private static readonly (Roles Role, string? Person)[] DemoPeople =
    [
        (Roles.Technician, "tech-02"),
        (Roles.Lead, "lead-01"),
        (Roles.Officer, "officer-01"),
        (Roles.Administrator, null),
    ];

    public static async Task<WaysIn> MakeAsync(IServiceProvider services, bool isDemo)
    {
        await using var scope = services.CreateAsyncScope();
        var accounts = scope.ServiceProvider.GetRequiredService<IAccountStore>();
        var desk = scope.ServiceProvider.GetRequiredService<AccountDesk>();
        var keys = scope.ServiceProvider.GetRequiredService<KeyMaking>();
        foreach (var old in accounts.Keys().Where(key => key.Name == DemoKeyName && key.RevokedAt is null))
        {
            _ = keys.Revoke(old.Id, AccountAct.Machine);
        }

        if (isDemo)
        {
            return await DemoAsync(desk, keys, scope.ServiceProvider.GetRequiredService<ServedSites>());
        }

        // Whoever was told their passwords has seen them on a screen.
        await desk.EndDemoAsync(AccountAct.Machine);

        return accounts.Accounts().IsEmpty
            ? new WaysIn
            {
                FirstSecret = FirstSecrets.Draw(
                    accounts,
                    scope.ServiceProvider.GetRequiredService<TimeProvider>().GetUtcNow()
                ),
            }
            : new WaysIn();
    }

    // Each start gives other passwords and another key: what was told at an earlier one is no longer good.
    private static async Task<WaysIn> DemoAsync(AccountDesk desk, KeyMaking keys, ServedSites sites)
    {
        var site = sites.Home.Registers;
        var own = sites.AreSeveral ? site.Name : null;
        List<KeyValuePair<string, string>> passwords = [];
        foreach (var (role, person) in DemoPeople)
        {
            var name = AccountDesk.DemoStart + RoleWords.Text(role);
            // Another folder of rules may be of another site.
            var known = site.People.Any(one => one.Id.Text == person)
                ? person
                : site.People.FirstOrDefault()?.Id.Text;
            passwords.Add(
                new(
                    name,
                    await desk.PutAsync(name, role, person is null ? null : known, AccountAct.Machine, own)
                )
            );
        }

        var (secret, _) = keys.Make(DemoKeyName, Roles.Lead, null, 1, AccountAct.Machine, own);
        return new WaysIn { DemoPasswords = passwords, DemoKey = secret };
    }
}
