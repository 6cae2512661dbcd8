using System.Globalization;
using System.Security.Cryptography.X509Certificates;
using ServiceRules.Domain.Timeline;
using ServiceRules.Reporting.Signing;
using ServiceRules.Reporting.Timestamping;

namespace ServiceRules.Reporting.Verifying;

/// <summary>What is to be held of the time of a signature.</summary>
/// <param name="TrustedTime">The time at which the signature is proven to have been there, or null.</param>
internal sealed record TimestampFinding(PointState State, string Told, DateTimeOffset? TrustedTime)
{
    public static TimestampFinding Of(
        SignatureContainer container,
        SignatureEntry entry,
        X509Certificate2 signer,
        VerificationGrounds grounds
    ) =>
        (container.TimestampToken, entry.TimestampAskedOf) switch
        {
            (null, null) => Unclaimed(
                "no time-stamp: the stated time rests on the clock of the issuing machine alone"
            ),
            (null, { } authority) => Failed(
                $"the signature says that {authority} was asked for a time-stamp, and carries none: it was taken out"
            ),
            (_, null) => Failed(
                "the signature carries a time-stamp that it does not speak of: it was put in"
            ),
            ({ } encoded, _) => Of(encoded, container, entry, signer, grounds),
        };

    private static TimestampFinding Of(
        byte[] encoded,
        SignatureContainer container,
        SignatureEntry entry,
        X509Certificate2 signer,
        VerificationGrounds grounds
    )
    {
        var (token, fault) = TimestampToken.Read(encoded, container.Signature);
        fault ??= token!.FaultFor(signer, entry.SignedAt);
        if (fault is not null)
        {
            return Failed(fault);
        }
        var authority = token!.Authority;
        var told = string.Create(
            CultureInfo.InvariantCulture,
            $"signed at or before {UtcTime.Print(token.Latest)} by the clock of `{authority.Subject}`"
        );
        if (!IsTrusted(token, grounds.TimestampAuthorities))
        {
            return NotEstablished(
                $"{told}, who is not trusted here (certificate SHA-256 {CertificateFingerprint.Of(authority)}): nothing rests "
                    + "on it; get the certificate from the authority by another way, and give it with --trust-tsa"
            );
        }
        var lists = new TrustedLists(grounds.Revocations, [.. grounds.TimestampAuthorities, .. token.Others]);
        // Whoever has the authority's key can state any time: only a key given up in good order counts until then.
        return
            lists.EntryOf(authority) is { } revoked && !(revoked.IsInGoodOrder && token.Latest < revoked.From)
            ? NotEstablished(
                $"{told}, whose certificate is revoked from {UtcTime.Print(revoked.From)} ({revoked.ReasonTold}): nothing "
                    + "rests on it"
            )
            : new TimestampFinding(PointState.Passed, told, token.Latest);
    }

    private static TimestampFinding NotEstablished(string told) => new(PointState.NotEstablished, told, null);

    private static bool IsTrusted(TimestampToken token, IReadOnlyList<X509Certificate2> trusted) =>
        trusted.ContainsBytesOf(token.Authority)
        // What a token carries besides is not signed: all of it must lead to whom is trusted.
        || trusted.Any(anchor =>
            IssuerChain.LeadsTo(token.Authority, token.Others, anchor, token.At, ofAll: true)
        );

    private static TimestampFinding Unclaimed(string told) => new(PointState.NotClaimed, told, null);

    private static TimestampFinding Failed(string told) => new(PointState.Failed, told, null);
}
