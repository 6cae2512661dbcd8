using System.Diagnostics.CodeAnalysis;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace ServiceRules.Reporting.Signing;

/// <summary>A certificate with its private key, checked to be fit for signing reports at a given instant.</summary>
public sealed class SigningKey : IReportSigner, IDisposable
{
    private SigningKey(X509Certificate2 certificate, IReadOnlyList<X509Certificate2> issuers)
    {
        Certificate = certificate;
        Issuers = issuers;
    }

    public X509Certificate2 Certificate { get; }

    public IReadOnlyList<X509Certificate2> Issuers { get; }

    /// <summary>What others need in order to trust reports made with this key.</summary>
    public string CertificatePem => Certificate.ExportCertificatePem();

    /// <summary>SHA-256 of the certificate in groups of four hex digits, for reading aloud.</summary>
    public string Fingerprint => CertificateFingerprint.Of(Certificate);

    /// <summary>
    /// Takes over the certificates, or disposes of them when they are not fit. The others must be the signer's
    /// issuers, in any order.
    /// </summary>
    [SuppressMessage("Reliability", "CA2000", Justification = "The key passes to the caller.")]
    internal static SigningKeyOutcome Admit(
        X509Certificate2 certificate,
        IReadOnlyList<X509Certificate2> others,
        DateTimeOffset at,
        string where,
        bool created = false
    )
    {
        var fault = SigningKeyFitness.Fault(certificate, at);
        IReadOnlyList<X509Certificate2> issuers = [];
        if (fault is null)
        {
            (issuers, fault) = IssuerChain.Link(certificate, others, at);
        }
        foreach (var unused in others.Except(issuers, ReferenceEqualityComparer.Instance).Cast<IDisposable>())
        {
            unused.Dispose();
        }
        var key = new SigningKey(certificate, issuers);
        if (fault is not null)
        {
            key.Dispose();
            return new SigningKeyOutcome.Refused($"{where}: {fault}");
        }
        return new SigningKeyOutcome.Usable(key, created);
    }

    public byte[] SignDigest(ReadOnlySpan<byte> digest)
    {
        using var key =
            Certificate.GetECDsaPrivateKey()
            ?? throw new InvalidOperationException("signing key lost its private part");
        return key.SignHash(digest, DSASignatureFormat.IeeeP1363FixedFieldConcatenation);
    }

    public void Dispose()
    {
        Certificate.Dispose();
        foreach (var issuer in Issuers)
        {
            issuer.Dispose();
        }
    }
}
