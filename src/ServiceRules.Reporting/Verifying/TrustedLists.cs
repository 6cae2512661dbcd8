using System.Security.Cryptography.X509Certificates;
using ServiceRules.Domain.Timeline;
using ServiceRules.Reporting.Revocation;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Reporting.Verifying;

/// <summary>Revocation lists, sorted by whose word counts here.</summary>
internal sealed class TrustedLists
{
    private readonly List<(RevocationList List, X509Certificate2? Signer)> _lists;

    public TrustedLists(IReadOnlyList<RevocationList> lists, IReadOnlyList<X509Certificate2> trusted) =>
        _lists = [.. lists.Select(list => (list, trusted.FirstOrDefault(list.IsSignedBy)))];

    /// <summary>
    /// Lists by the issuer of the certificate that count, and why another one of that issuer does not, or null.
    /// </summary>
    public (IReadOnlyList<RevocationList> Lists, string? Doubt) Covering(X509Certificate2 certificate)
    {
        // A key cannot vouch for itself: whoever stole it can sign a list as well.
        var covering = _lists
            .Where(one =>
                one.List.Covers(certificate) && !IsSilentOnItsSigner(one.List, one.Signer, certificate)
            )
            .ToList();
        var doubts = covering
            .Select(one => (one.List, Doubt: Doubt(one.List, one.Signer, certificate)))
            .ToList();
        return (
            [.. doubts.Where(one => one.Doubt is null).Select(one => one.List)],
            doubts.Find(one => one.Doubt is not null).Doubt
        );
    }

    /// <summary>The gravest entry of the certificate on lists that count, or null.</summary>
    public RevokedCertificate? EntryOf(X509Certificate2 certificate) =>
        Covering(certificate)
            .Lists.Select(list => list.EntryOf(certificate))
            .OfType<RevokedCertificate>()
            .OrderBy(one => one.IsInGoodOrder)
            .ThenBy(one => one.From)
            .FirstOrDefault();

    private static bool IsSilentOnItsSigner(
        RevocationList list,
        X509Certificate2? signer,
        X509Certificate2 certificate
    ) => signer is not null && signer.HasBytesOf(certificate) && list.EntryOf(certificate) is null;

    private string? Doubt(RevocationList list, X509Certificate2? signer, X509Certificate2 certificate)
    {
        var named = $"the list of `{list.Issuer.Name}` of {UtcTime.Print(list.ThisUpdate)}";
        if (signer is null)
        {
            return $"{named} is not signed by a certificate that is trusted here and may sign lists; give the one that signed "
                + "it with --trust";
        }
        if (list.EntryOf(signer) is not null && signer.Equals(certificate))
        {
            return $"{named} is signed with the very key that it revokes; accepted: a list signed with another key";
        }
        return _lists.Any(other => other.List != list && IsCompromised(signer, other.List, other.Signer))
            ? $"{named} is signed with a key that another list gives as compromised"
            : null;
    }

    private static bool IsCompromised(
        X509Certificate2 signer,
        RevocationList by,
        X509Certificate2? bySigner
    ) =>
        bySigner is not null
        && !bySigner.Equals(signer)
        && by.Covers(signer)
        && by.EntryOf(signer) is { IsInGoodOrder: false };
}
