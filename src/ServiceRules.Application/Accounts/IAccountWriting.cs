using ServiceRules.Evidence;

namespace ServiceRules.Application.Accounts;

/// <summary>Changes accounts and keys, in one transaction with the acts that tell of it.</summary>
public interface IAccountWriting : IAccountReading
{
    /// <returns>Whether its name was free, here and elsewhere.</returns>
    bool Add(Account account);

    /// <summary>Puts it in the place of the version before.</summary>
    /// <returns>The account as it stands then; null when another change came first, or the name is taken.</returns>
    Account? Replace(Account account);

    void RemoveAccount(string id);

    void Add(ApiKey key);

    /// <summary>Notes that a key was used.</summary>
    void Used(string keyId, DateTimeOffset at);

    /// <returns>Whether it was there and not revoked yet.</returns>
    bool Revoke(string keyId, DateTimeOffset at);

    /// <summary>Puts it in the place of any that was there.</summary>
    void SetFirstSecret(FirstSecret secret);

    /// <summary>Uses it up.</summary>
    /// <returns>Whether it was the one that is good now.</returns>
    bool TakeFirstSecret(ContentHash hash, DateTimeOffset at);

    /// <summary>Adds a site to an installation of several.</summary>
    /// <returns>Whether it was not there.</returns>
    bool AddSite(string name);

    /// <summary>Makes accounts and keys that are of no site those of one.</summary>
    void SettleAt(string site);

    /// <summary>Keeps an act for good, in the log.</summary>
    void Note(AccountAct act);
}
