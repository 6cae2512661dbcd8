namespace ServiceRules.Application.Accounts;

/// <summary>The one secret by which somebody who has no account becomes an administrator.</summary>
public static class FirstSecrets
{
    /// <summary>How long it lasts: long enough to walk to another screen.</summary>
    public static readonly TimeSpan Lasts = TimeSpan.FromHours(1);

    /// <summary>Draws one, in the place of any before it. It is told this once.</summary>
    public static string Draw(IAccountStore store, DateTimeOffset at)
    {
        ArgumentNullException.ThrowIfNull(store);
        var secret = DrawnSecret.Secret();
        return store.Write(writing =>
        {
            writing.SetFirstSecret(new(DrawnSecret.Hash(secret), at + Lasts));
            writing.Note(new(at, AccountAct.FirstSecretMade, AccountAct.Machine, AccountAct.Machine));
            return secret;
        });
    }

    /// <summary>Whether this is the one that is good now.</summary>
    public static bool IsGood(IAccountReading accounts, string secret, DateTimeOffset at)
    {
        ArgumentNullException.ThrowIfNull(accounts);
        // Hashes are compared: how far they agree tells nothing of the secret.
        return accounts.FirstSecret() is { } kept
            && at < kept.ExpiresAt
            && kept.Hash == DrawnSecret.Hash(secret);
    }
}
