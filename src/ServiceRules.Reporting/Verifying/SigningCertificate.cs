using System.Security.Cryptography.X509Certificates;
using ServiceRules.Domain.Timeline;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Reporting.Verifying;

/// <summary>The certificate a signature names, and whether it is trusted here.</summary>
internal static class SigningCertificate
{
    /// <summary>What is wrong with the certificate for a signature at the stated time, or null.</summary>
    public static string? Fault(
        X509Certificate2 certificate,
        IReadOnlyList<X509Certificate2> sent,
        SignatureContainer container,
        DateTimeOffset signedAt
    )
    {
        var issuers = sent.Where(one => !one.HasBytesOf(certificate));
        if (
            !BaselineSignature
                .SigningCertificateV2(certificate, issuers)
                .AsSpan()
                .SequenceEqual(container.SigningCertificate)
        )
        {
            return "the signature was made for other certificates than those in the file";
        }
        if (sent.Repeated() is not null)
        {
            return "the file carries a certificate twice";
        }
        if (signedAt < certificate.NotBefore || signedAt > certificate.NotAfter)
        {
            return $"the certificate was not valid at the stated time {UtcTime.Print(signedAt)}";
        }
        return SigningKeyFitness.UsageFault(certificate);
    }

    /// <summary>The certificate whose issuer and serial number the signer gave, or null.</summary>
    public static X509Certificate2? Named(
        SignatureContainer container,
        IEnumerable<X509Certificate2> certificates
    ) =>
        certificates.FirstOrDefault(certificate =>
            certificate.IssuerName.RawData.AsSpan().SequenceEqual(container.Issuer)
            && certificate.SerialNumberBytes.Span.SequenceEqual(container.Serial)
        );

    /// <summary>
    /// Null when the certificate is one of the trusted ones, or leads to one of them, and what was sent along are its
    /// issuers and nothing else.
    /// </summary>
    public static string? TrustFault(
        X509Certificate2 certificate,
        IReadOnlyList<X509Certificate2> sent,
        IReadOnlyList<X509Certificate2> trusted,
        DateTimeOffset at
    )
    {
        List<X509Certificate2> others = [.. sent.Where(one => !one.HasBytesOf(certificate))];
        if (!IssuerChain.IsOf(certificate, others, at))
        {
            return "the file carries certificates that have no part in the signature";
        }
        // One by one: to trust one more must never make another trust fail.
        return
            trusted.ContainsBytesOf(certificate)
            || trusted.Any(anchor => IssuerChain.LeadsTo(certificate, others, anchor, at))
            ? null
            : $"the certificate `{certificate.Subject}` (SHA-256 {CertificateFingerprint.Of(certificate)}) "
                + "is not trusted here; trust it explicitly if you know it";
    }
}
