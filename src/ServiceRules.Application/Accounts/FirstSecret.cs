using ServiceRules.Evidence;

namespace ServiceRules.Application.Accounts;

/// <summary>What whoever has the machine makes an administrator with, once. The secret itself is kept nowhere.</summary>
/// <param name="Hash">SHA-256 of the secret.</param>
/// <param name="ExpiresAt">From when on it opens nothing.</param>
public sealed record FirstSecret(ContentHash Hash, DateTimeOffset ExpiresAt);
