using System.Security.Cryptography.X509Certificates;
using ServiceRules.Reporting.Revocation;

namespace ServiceRules.Reporting.Verifying;

/// <summary>Whose word counts for the person who checks.</summary>
/// <param name="Signers">Signing certificates, or roots they lead to.</param>
/// <param name="TimestampAuthorities">Certificates of time-stamp authorities, or roots they lead to.</param>
public sealed record VerificationGrounds(
    IReadOnlyList<X509Certificate2> Signers,
    IReadOnlyList<X509Certificate2> TimestampAuthorities
)
{
    public IReadOnlyList<RevocationList> Revocations { get; init; } = [];

    /// <summary>When the check is made; null: not known, and no list that names its end is held for current.</summary>
    public DateTimeOffset? CheckedAt { get; init; }

    /// <summary>Whether a report counts only when a list says that its key is not revoked.</summary>
    public bool AsksForRevocation { get; init; }

    public static VerificationGrounds Of(IReadOnlyList<X509Certificate2> signers) => new(signers, []);
}
