using ServiceRules.Application.Ledger;

namespace ServiceRules.Application.Accounts;

/// <summary>Makes keys for programs, and finds the one that was shown.</summary>
public sealed class KeyMaking(IAccountStore store, TimeProvider clock)
{
    /// <summary>How long a key lasts where nobody says otherwise.</summary>
    public const int UsualDays = 90;

    /// <summary>A program that is still in use after a year can be given a new one.</summary>
    public const int MostDays = 366;

    // A key that is used a thousand times a minute is not written down a thousand times.
    private static readonly TimeSpan UseStep = TimeSpan.FromMinutes(1);

    /// <summary>The key, told this once, and what is kept of it.</summary>
    /// <param name="name">What it is for.</param>
    /// <param name="roles">At least one.</param>
    /// <param name="person">Whom it stands for.</param>
    /// <param name="days">How long it lasts.</param>
    /// <param name="by">Who makes it, as acts name it.</param>
    /// <param name="site">Of which site it is, see <see cref="GrantedSite"/>; null: there is one.</param>
    public (string Secret, ApiKey Key) Make(
        string name,
        Roles roles,
        string? person,
        int days,
        string by,
        string? site = null
    )
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        ArgumentOutOfRangeException.ThrowIfEqual((int)roles, (int)Roles.None);
        ArgumentOutOfRangeException.ThrowIfLessThan(days, 1);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(days, MostDays);
        var secret = DrawnSecret.KeyStart + DrawnSecret.Secret();
        var at = clock.GetUtcNow();
        var key = new ApiKey(DrawnSecret.Id(), name, DrawnSecret.Hash(secret), roles, at, at.AddDays(days))
        {
            Person = person,
            Site = site,
        };
        return store.Write(writing =>
        {
            writing.Add(key);
            writing.Note(
                new(at, AccountAct.KeyMade, by, AccountAct.OfKey(key.Id))
                {
                    Detail = GrantedSite.Told(roles, site),
                }
            );
            return (secret, key);
        });
    }

    /// <returns>Whether it was there and not revoked yet.</returns>
    public bool Revoke(string id, string by)
    {
        var at = clock.GetUtcNow();
        return store.Write(writing =>
        {
            var isRevoked = writing.Revoke(id, at);
            if (isRevoked)
            {
                writing.Note(new(at, AccountAct.KeyRevoked, by, AccountAct.OfKey(id)));
            }

            return isRevoked;
        });
    }

    /// <summary>The key that was shown, if it opens anything now.</summary>
    public ApiKey? Opened(string secret)
    {
        var at = clock.GetUtcNow();
        if (store.Key(DrawnSecret.Hash(secret)) is not { } key || !key.Opens(at))
        {
            return null;
        }

        if (key.LastUsedAt is not { } last || at - last >= UseStep)
        {
            NoteUse(key.Id, at);
        }

        return key;
    }

    private void NoteUse(string id, DateTimeOffset at)
    {
        try
        {
            _ = store.Write(writing =>
            {
                writing.Used(id, at);
                return true;
            });
        }
        catch (LedgerStoreException)
        {
            // A full disk keeps nobody from reading; what cannot be stored is told where it was to be stored.
        }
    }
}
