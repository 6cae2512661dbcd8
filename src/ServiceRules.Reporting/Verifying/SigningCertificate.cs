using System.Security.Cryptography.X509Certificates;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Reporting.Verifying;

/// <summary>The certificate a signature names, and whether it is trusted here.</summary>
internal static class SigningCertificate
{
    /// <summary>What is wrong with the certificate for a signature at the stated time, or null.</summary>
    public static string? Fault(
        X509Certificate2 certificate,
        SignatureContainer container,
        DateTimeOffset signedAt
    )
    {
        if (
            !BaselineSignature
                .SigningCertificateV2(certificate)
                .AsSpan()
                .SequenceEqual(container.SigningCertificate)
        )
        {
            return "the signature was made for another certificate than the one in the file";
        }
        if (signedAt < certificate.NotBefore || signedAt > certificate.NotAfter)
        {
            return $"the certificate was not valid at the stated time {signedAt:yyyy-MM-dd HH:mm:ss} UTC";
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

    /// <summary>Null when the certificate is one of the trusted ones, or leads to one of them.</summary>
    public static string? TrustFault(
        X509Certificate2 certificate,
        IReadOnlyList<X509Certificate2> sent,
        IReadOnlyList<X509Certificate2> trusted,
        DateTimeOffset at
    )
    {
        if (sent.Repeated() is not null)
        {
            return "the file carries a certificate twice";
        }
        if (trusted.ContainsBytesOf(certificate))
        {
            return sent.Count == 1
                ? null
                : "the file carries certificates that have no part in the signature";
        }
        using var chain = new X509Chain();
        chain.ChainPolicy.TrustMode = X509ChainTrustMode.CustomRootTrust;
        chain.ChainPolicy.CustomTrustStore.AddRange(trusted.ToArray());
        chain.ChainPolicy.ExtraStore.AddRange(sent.ToArray());
        chain.ChainPolicy.DisableCertificateDownloads = true;
        chain.ChainPolicy.RevocationMode = X509RevocationMode.NoCheck;
        chain.ChainPolicy.VerificationTime = at.UtcDateTime;
        if (!chain.Build(certificate))
        {
            return $"the certificate `{certificate.Subject}` (SHA-256 {CertificateFingerprint.Of(certificate)}) "
                + "is not trusted here; trust it explicitly if you know it";
        }
        var used = chain.ChainElements.Select(element => element.Certificate).ToList();
        return sent.All(used.ContainsBytesOf)
            ? null
            : "the file carries certificates that have no part in the signature";
    }
}
