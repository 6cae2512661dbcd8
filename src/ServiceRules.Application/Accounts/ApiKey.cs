using ServiceRules.Evidence;

namespace ServiceRules.Application.Accounts;

/// <summary>What a program is let in by. The key itself is kept nowhere.</summary>
/// <param name="Id">Drawn when it is made: what is told of acts names it by this.</param>
/// <param name="Name">What it is for.</param>
/// <param name="Hash">SHA-256 of the key.</param>
/// <param name="Roles">At least one.</param>
/// <param name="MadeAt">When it was made.</param>
/// <param name="ExpiresAt">From when on it opens nothing.</param>
public sealed record ApiKey(
    string Id,
    string Name,
    ContentHash Hash,
    Roles Roles,
    DateTimeOffset MadeAt,
    DateTimeOffset ExpiresAt
)
{
    /// <summary>The person of the register that it stands for.</summary>
    public string? Person { get; init; }

    /// <summary>Of which site it is, see <see cref="GrantedSite"/>; null: there was one when it was made.</summary>
    public string? Site { get; init; }

    /// <summary>When it was used last, to the minute or so.</summary>
    public DateTimeOffset? LastUsedAt { get; init; }

    public DateTimeOffset? RevokedAt { get; init; }

    public bool Opens(DateTimeOffset at) => RevokedAt is null && at < ExpiresAt;
}
