using System.Globalization;
using System.Security.Cryptography;
using System.Security.Cryptography.Pkcs;
using System.Security.Cryptography.X509Certificates;
using ServiceRules.Domain.Timeline;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Reporting.Timestamping;

/// <summary>
/// A time-stamp of a signature that holds in itself: over this very signature, by a certificate for time-stamps that
/// was in date. Whether the authority is trusted is another question.
/// </summary>
/// <param name="At">The authority's time.</param>
/// <param name="Latest">The same with what the authority says that its clock may be out.</param>
/// <param name="Authority">Its certificate, from the token.</param>
/// <param name="Others">What the token carries besides: issuers of the authority, and nothing else.</param>
internal sealed record TimestampToken(
    DateTimeOffset At,
    DateTimeOffset Latest,
    X509Certificate2 Authority,
    IReadOnlyList<X509Certificate2> Others
)
{
    /// <summary>Reports are stamped as they are issued: clocks may differ, days may not lie between.</summary>
    public static readonly TimeSpan ApartMost = TimeSpan.FromMinutes(10);

    private const string TimestampPurpose = "1.3.6.1.5.5.7.3.8";

    /// <summary>The token, or the first thing in it that does not hold.</summary>
    public static (TimestampToken? Token, string? Fault) Read(byte[] encoded, ReadOnlySpan<byte> signature)
    {
        if (TimestampShape.Fault(encoded) is { } shape)
        {
            return (null, shape);
        }
        try
        {
            return ReadShaped(encoded, signature);
        }
        catch (CryptographicException)
        {
            return (null, "the time-stamp is not a token of RFC 3161");
        }
    }

    private static (TimestampToken? Token, string? Fault) ReadShaped(
        byte[] encoded,
        ReadOnlySpan<byte> signature
    )
    {
        // The platform says of a token with any fault just that it is none; which fault, is what people want to know.
        var cms = new SignedCms();
        cms.Decode(encoded);
        if (!Rfc3161TimestampTokenInfo.TryDecode(cms.ContentInfo.Content, out var terms, out _))
        {
            return (null, "the time-stamp is not a token of RFC 3161");
        }
        var digest = SHA256.HashData(signature);
        if (
            terms.HashAlgorithmId.Value != PadesOids.Sha256
            || !terms.GetMessageHash().Span.SequenceEqual(digest)
        )
        {
            return (null, "the time-stamp was made for another signature");
        }
        var accuracy = terms.AccuracyInMicroseconds ?? 0;
        if (accuracy > ApartMost.TotalMicroseconds)
        {
            return (
                null,
                $"the time-stamp is by a clock that may be more than {ApartMost.TotalMinutes} minutes out"
            );
        }
        if (cms.SignerInfos[0].Certificate is not { } authority)
        {
            return (null, "the time-stamp does not carry the certificate of its authority");
        }
        var carried = cms.Certificates.ToList();
        var others = carried.Where(one => !one.HasBytesOf(authority)).ToList();
        if (carried.Repeated() is not null || others.Any(authority.Equals))
        {
            return (null, "the time-stamp carries a certificate twice, or another one with its number");
        }
        var fault =
            AuthorityFault(authority, terms.Timestamp)
            ?? (
                Rfc3161TimestampToken.TryDecode(encoded, out var token, out _)
                && token.VerifySignatureForHash(digest, HashAlgorithmName.SHA256, out _)
                    ? IssuerChain.Link(authority, others, terms.Timestamp).Fault
                    : "the time-stamp was not made with the key of the certificate in it"
            );
        var latest = terms.Timestamp + TimeSpan.FromMicroseconds(accuracy);
        return fault is null
            ? (new TimestampToken(terms.Timestamp, latest, authority, others), null)
            : (null, fault);
    }

    /// <summary>Why it can be no time-stamp of a signature by this certificate that states this time, or null.</summary>
    public string? FaultFor(X509Certificate2 signer, DateTimeOffset stated)
    {
        if (At < signer.NotBefore || At > signer.NotAfter)
        {
            return $"the signing certificate was not valid at the time of the time-stamp, {UtcTime.Print(At)}";
        }
        var apart = (At - stated).Duration();
        return apart > ApartMost
            ? string.Create(
                CultureInfo.InvariantCulture,
                $"stated time {UtcTime.Print(stated)} and time-stamp {UtcTime.Print(At)} are {Told(apart)} apart; accepted: {ApartMost.TotalMinutes} minutes, set the clock of the issuing machine"
            )
            : null;
    }

    private static string Told(TimeSpan apart) =>
        apart.TotalDays >= 2
            ? string.Create(CultureInfo.InvariantCulture, $"{apart.TotalDays:0} days")
            : string.Create(CultureInfo.InvariantCulture, $"{apart.TotalMinutes:0} minutes");

    private static string? AuthorityFault(X509Certificate2 authority, DateTimeOffset at)
    {
        var purposes = authority.Extensions.OfType<X509EnhancedKeyUsageExtension>().ToList();
        if (
            purposes is not [{ Critical: true, EnhancedKeyUsages: { Count: 1 } only }]
            || only[0].Value != TimestampPurpose
        )
        {
            return $"the certificate `{authority.Subject}` of the time-stamp is not for time-stamps; accepted: extended key "
                + "usage timeStamping, critical and alone";
        }
        return at < authority.NotBefore || at > authority.NotAfter
            ? $"the certificate `{authority.Subject}` of the time-stamp was not valid at {UtcTime.Print(at)}; it is valid from "
                + $"{UtcTime.Print(authority.NotBefore)} to {UtcTime.Print(authority.NotAfter)}"
            : null;
    }
}
