using System.Diagnostics.CodeAnalysis;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace ServiceRules.Reporting.Signing;

/// <summary>A certificate with its private key, checked to be fit for signing reports at a given instant.</summary>
public sealed class SigningKey : IDisposable
{
    private SigningKey(X509Certificate2 certificate, IReadOnlyList<X509Certificate2> issuers)
    {
        Certificate = certificate;
        Issuers = issuers;
    }

    public X509Certificate2 Certificate { get; }

    /// <summary>Certificates between the signer and its root, sent along so that others can build the chain.</summary>
    public IReadOnlyList<X509Certificate2> Issuers { get; }

    /// <summary>What others need in order to trust reports made with this key.</summary>
    public string CertificatePem => Certificate.ExportCertificatePem();

    /// <summary>SHA-256 of the certificate in groups of four hex digits, for reading aloud.</summary>
    public string Fingerprint => CertificateFingerprint.Of(Certificate);

    /// <summary>Takes over the certificates, or disposes of them when they are not fit.</summary>
    [SuppressMessage("Reliability", "CA2000", Justification = "The key passes to the caller.")]
    internal static SigningKeyOutcome Admit(
        X509Certificate2 certificate,
        IReadOnlyList<X509Certificate2> issuers,
        DateTimeOffset at,
        string where,
        bool created = false
    )
    {
        var key = new SigningKey(certificate, issuers);
        if (SigningKeyFitness.Fault(certificate, at) is { } fault)
        {
            key.Dispose();
            return new SigningKeyOutcome.Refused($"{where}: {fault}");
        }
        return new SigningKeyOutcome.Usable(key, created);
    }

    internal ECDsa PrivateKey() =>
        Certificate.GetECDsaPrivateKey()
        ?? throw new InvalidOperationException("signing key lost its private part");

    public void Dispose()
    {
        Certificate.Dispose();
        foreach (var issuer in Issuers)
        {
            issuer.Dispose();
        }
    }
}
