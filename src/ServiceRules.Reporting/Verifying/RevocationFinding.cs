using System.Security.Cryptography.X509Certificates;
using ServiceRules.Domain.Timeline;
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
        var own = Of(path[0], lists, stated, proven, grounds.CheckedAt) ?? Unsettled(path[0], grounds);
        List<RevocationFinding> all =
        [
            own,
            .. path.Skip(1)
                .Select(issuer => Of(issuer, lists, stated, proven, grounds.CheckedAt))
                .OfType<RevocationFinding>(),
        ];
        return all.Find(one => one.State is PointState.Failed)
            ?? all.Find(one => one.State is PointState.NotEstablished)
            ?? own with
            {
                Told = string.Join("; ", all.Select(one => one.Told)),
            };
    }

    private static RevocationFinding? Of(
        X509Certificate2 certificate,
        TrustedLists lists,
        DateTimeOffset stated,
        DateTimeOffset? proven,
        DateTimeOffset? checkedAt
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
        if (covering.Count == 0)
        {
            return null;
        }
        // What a list revokes stays revoked, whenever it is read; that it leaves a key out counts for its own time.
        var latest = covering.MaxBy(list => list.ThisUpdate)!;
        return
            covering.Where(list => IsCurrent(list, checkedAt)).MaxBy(list => list.ThisUpdate) is { } current
            ? new(PointState.Passed, $"`{certificate.Subject}` is not on {Named(current)}")
            : new(
                PointState.NotEstablished,
                $"{Named(latest)} holds {Until(latest)}, and says nothing of what is revoked at another time; give the list of "
                    + "today with --revocations"
            );
    }

    private static bool IsCurrent(RevocationList list, DateTimeOffset? at) =>
        at is { } now
        && list.ThisUpdate - TimestampToken.ApartMost <= now
        && (list.NextUpdate is not { } end || now <= end);

    private static string Until(RevocationList list) =>
        list.NextUpdate is { } end ? $"from then until {UtcTime.Print(end)}" : "from then on";

    private static string Named(RevocationList list) =>
        $"the list of `{list.Issuer.Name}` of {UtcTime.Print(list.ThisUpdate)}";

    private static RevocationFinding Judge(
        X509Certificate2 certificate,
        RevokedCertificate entry,
        DateTimeOffset stated,
        DateTimeOffset? proven
    )
    {
        var told =
            $"`{certificate.Subject}` (SHA-256 {CertificateFingerprint.Of(certificate)}) is revoked from "
            + $"{UtcTime.Print(entry.From)} ({entry.ReasonTold})";
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

    private static RevocationFinding Unsettled(X509Certificate2 certificate, VerificationGrounds grounds)
    {
        // Nothing else could ever be had of a key that answers for itself: it is trusted as it was handed over, or not.
        return grounds.Revocations.FirstOrDefault(list => list.Covers(certificate)) is { } own
            ? new(
                PointState.NotClaimed,
                $"{Named(own)} is signed with the very key that signed the report: of that key it proves nothing"
            )
            : new(
                grounds.AsksForRevocation ? PointState.NotEstablished : PointState.NotClaimed,
                $"no list of `{certificate.Issuer}` was given, who issued the certificate; there are lists of "
                    + string.Join(
                        ", ",
                        grounds.Revocations.Select(list => $"`{list.Issuer.Name}`").Distinct()
                    )
            );
    }
}
