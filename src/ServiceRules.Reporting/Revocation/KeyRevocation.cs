using System.Security.Cryptography.X509Certificates;
using ServiceRules.Application.Filed;
using ServiceRules.Domain.Timeline;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Reporting.Revocation;

/// <summary>Says of a key that was followed by another that its signatures no longer count, and from when on.</summary>
public static class KeyRevocation
{
    /// <summary>
    /// Puts a key on the list in the folder and leaves everything else there as it is: a certificate that was brought
    /// along is not trusted for having been revoked.
    /// </summary>
    /// <param name="folder">The folder of the key that signs now.</param>
    /// <param name="revoked">The certificate of the other key.</param>
    /// <param name="at">Now.</param>
    public static KeyRevocationOutcome Revoke(
        string folder,
        X509Certificate2 revoked,
        X509RevocationReason reason,
        DateTimeOffset from,
        DateTimeOffset at
    )
    {
        if (!Directory.Exists(folder))
        {
            return new KeyRevocationOutcome.Refused(
                $"{SigningKeyFolder.Missing(folder)}; the first report makes one"
            );
        }
        try
        {
            // Key and list are read only when no other process changes them.
            using var held = SigningKeyFolder.Hold(folder);
            var opened = SigningKeyFolder.Open(folder, at);
            if (opened is SigningKeyOutcome.Refused { Reason: var unusable })
            {
                return new KeyRevocationOutcome.Refused(unusable);
            }
            using var signer = ((SigningKeyOutcome.Usable)opened).Key;
            var (earlier, unread) = RevocationFile.Read(folder);
            var (list, fault) = unread is null
                ? Revoke(earlier, signer, revoked, reason, from, at)
                : (null, unread);
            if (list is null)
            {
                return new KeyRevocationOutcome.Refused($"`{revoked.Subject}` is not revoked: {fault}");
            }
            RevocationFile.Write(folder, list);
            return new KeyRevocationOutcome.Revoked(list);
        }
        catch (Exception problem)
            when (!DiskFull.Is(problem) && problem is IOException or UnauthorizedAccessException)
        {
            return new KeyRevocationOutcome.Refused(
                $"`{revoked.Subject}` is not revoked: keys in `{folder}`: {problem.Message}"
            );
        }
    }

    /// <summary>The next list, or why there is none.</summary>
    /// <param name="earlier">The list so far, or null.</param>
    /// <param name="signer">The key that signs now.</param>
    /// <param name="revoked">The certificate of the other key.</param>
    /// <param name="at">Now.</param>
    public static (RevocationList? List, string? Fault) Revoke(
        RevocationList? earlier,
        IReportSigner signer,
        X509Certificate2 revoked,
        X509RevocationReason reason,
        DateTimeOffset from,
        DateTimeOffset at
    )
    {
        var entry = new RevokedCertificate(
            revoked.SerialNumber,
            DateTimeOffset.FromUnixTimeSeconds(from.ToUnixTimeSeconds()),
            reason
        );
        var fault = SignerFault(signer, revoked) ?? EntryFault(earlier?.EntryOf(revoked), entry, at);
        if (fault is not null)
        {
            return (null, fault);
        }
        var others = earlier?.Entries.Where(one => one.Serial != entry.Serial) ?? [];
        return (RevocationListMaking.Make(signer, earlier, [.. others, entry], at), null);
    }

    private static string? SignerFault(IReportSigner signer, X509Certificate2 revoked)
    {
        if (revoked.Equals(signer.Certificate))
        {
            return "it is the key that signs now, and no key can vouch for its own end; accepted: `keys rotate` first, then "
                + "revoke the old one";
        }
        if (!revoked.IssuerName.RawData.AsSpan().SequenceEqual(signer.Certificate.SubjectName.RawData))
        {
            return $"it was issued by `{revoked.Issuer}`, and only the issuer can revoke it; the key here is that of "
                + $"`{signer.Certificate.Subject}`; accepted: a list of the issuer, given to verify with --revocations";
        }
        return RevocationList.MaySign(signer.Certificate)
            ? null
            : "the key that signs now was made without the right to sign revocation lists (key usage cRLSign); accepted: `keys "
                + "rotate` first";
    }

    private static string? EntryFault(
        RevokedCertificate? earlier,
        RevokedCertificate entry,
        DateTimeOffset at
    )
    {
        if (entry.From > at)
        {
            return $"{UtcTime.Print(entry.From)} is still to come; accepted: now, or a time that is past";
        }
        var isWeaker =
            earlier is not null
            && (
                earlier.IsInGoodOrder == entry.IsInGoodOrder ? entry.From > earlier.From : entry.IsInGoodOrder
            );
        return isWeaker
            ? $"it is revoked already, from {UtcTime.Print(earlier!.From)} ({earlier.ReasonTold}); accepted: an earlier "
                + "time, or key-compromise where it was another reason"
            : null;
    }
}
