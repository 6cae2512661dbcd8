using System.Security.Cryptography.X509Certificates;

namespace ServiceRules.Reporting.Signing;

/// <summary>
/// Something that signs reports. The private key is never asked for, only signatures: it may lie in a file of this
/// machine, in a hardware token or with a key service.
/// </summary>
public interface IReportSigner
{
    /// <summary>The signer's own certificate, with a P-256 key. Its private part need not be there.</summary>
    X509Certificate2 Certificate { get; }

    /// <summary>Certificates between the signer and its root, sent along so that others can build the chain.</summary>
    IReadOnlyList<X509Certificate2> Issuers { get; }

    /// <summary>Signs a SHA-256 digest of 32 bytes: ECDSA, r and s of 32 bytes each, one after the other.</summary>
    byte[] SignDigest(ReadOnlySpan<byte> digest);

    /// <summary>What others need in order to trust reports of this signer.</summary>
    string CertificatePem => Certificate.ExportCertificatePem();

    /// <summary>SHA-256 of the certificate in groups of four hex digits, for reading aloud.</summary>
    string Fingerprint => CertificateFingerprint.Of(Certificate);
}
