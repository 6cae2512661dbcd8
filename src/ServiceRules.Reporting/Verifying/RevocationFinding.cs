using System.Security.Cryptography.X509Certificates;
using ServiceRules.Reporting.Revocation;
using ServiceRules.Reporting.Signing;
using ServiceRules.Reporting.Timestamping;

namespace ServiceRules.Reporting.Verifying;

/// <summary>What revocation lists say of a signature.</summary>
internal sealed record RevocationFinding(PointState State, string Told)
{
    /// <param name="path">The signing certificate, then those sent along with it.</param>
    /// <param name="stated">The time that the signer states.</param>
    /// <param name="proven">The time by which the signature is proven to have been there, or null.</param>
    public static RevocationFinding Of(
        IReadOnlyList<X509Certificate2> path,
        DateTimeOffset stated,
        DateTimeOffset? proven,
        VerificationGrounds grounds
    )
    {
        if (grounds.Revocations.Count == 0)
        {
            return new(PointState.NotClaimed, "not asked: no revocation list was given");
        }
        var lists = new TrustedLists(grounds.Revocations, [.. grounds.Signers, .. path.Skip(1)]);
        var findings = path.Select(certificate => Of(certificate, lists, stated, proven, grounds.CheckedAt))
            .OfType<RevocationFinding>();
        var all = findings.ToList();
        return all.Find(one => one.State is PointState.Failed)
            ?? all.Find(one => one.State is PointState.NotEstablished)
            ?? (
                grounds.Revocations.Any(list => list.Covers(path[0]))
                    ? new(PointState.Passed, string.Join("; ", all.Select(one => one.Told)))
                    : OfOthers(path[0], grounds)
            );
    }

    private static RevocationFinding? Of(
        X509Certificate2 certificate,
        TrustedLists lists,
        DateTimeOffset stated,
        DateTimeOffset? proven,
        DateTimeOffset checkedAt
    )
    {
        var (covering, doubt) = lists.Covering(certificate);
        if (lists.EntryOf(certificate) is { } entry)
        {
            return Judge(certificate, entry, stated, proven);
        }
        if (doubt is not null)
        {
            return new(PointState.NotEstablished, doubt);
        }
        return covering
            .OrderByDescending(list => list.NextUpdate ?? DateTimeOffset.MaxValue)
            .ThenByDescending(list => list.ThisUpdate)
            .FirstOrDefault() switch
        {
            null => null,
            // What an ended list revokes stays revoked; what was revoked since, it cannot know.
            { NextUpdate: { } end } latest when end < checkedAt => new(
                PointState.NotEstablished,
                $"{Named(latest)} ended at {TimestampToken.Utc(end)} and says nothing of what was revoked since; give the list "
                    + "that followed it with --revocations"
            ),
            var latest => new(PointState.Passed, $"`{certificate.Subject}` is not on {Named(latest)}"),
        };
    }

    private static string Named(RevocationList list) =>
        $"the list of `{list.Issuer.Name}` of {TimestampToken.Utc(list.ThisUpdate)}";

    private static RevocationFinding Judge(
        X509Certificate2 certificate,
        RevokedCertificate entry,
        DateTimeOffset stated,
        DateTimeOffset? proven
    )
    {
        var told =
            $"`{certificate.Subject}` (SHA-256 {CertificateFingerprint.Of(certificate)}) is revoked from "
            + $"{TimestampToken.Utc(entry.From)} ({entry.ReasonTold})";
        if (proven is { } time)
        {
            return time < entry.From
                ? new(PointState.Passed, $"{told}; the report was signed before, as the time-stamp proves")
                : new(PointState.Failed, $"{told}, and the time-stamp is not from before that");
        }
        if (!entry.IsInGoodOrder)
        {
            return new(
                PointState.Failed,
                $"{told}; no trusted time-stamp shows that the report was signed before, and its stated time proves nothing: "
                    + "whoever has the key can state any"
            );
        }
        return stated < entry.From
            ? new(
                PointState.Passed,
                $"{told}; the stated time is before that, by the clock of the issuing machine alone"
            )
            : new(PointState.Failed, $"{told}, and the report states a time that is not before that");
    }

    private static RevocationFinding OfOthers(X509Certificate2 certificate, VerificationGrounds grounds)
    {
        var told =
            $"no list of `{certificate.Issuer}` was given, who issued the certificate; there are lists of "
            + string.Join(", ", grounds.Revocations.Select(list => $"`{list.Issuer.Name}`").Distinct());
        return new(grounds.AsksForRevocation ? PointState.NotEstablished : PointState.NotClaimed, told);
    }
}
