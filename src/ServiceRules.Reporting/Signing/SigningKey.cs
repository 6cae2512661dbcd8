using System.Diagnostics.CodeAnalysis;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace ServiceRules.Reporting.Signing;

/// <summary>A certificate with its private key, checked to be fit for signing reports at a given instant.</summary>
public sealed class SigningKey : IReportSigner, IDisposable
{
    private SigningKey(
        X509Certificate2 certificate,
        IReadOnlyList<X509Certificate2> issuers,
        string? missingIssuer
    )
    {
        Certificate = certificate;
        Issuers = issuers;
        MissingIssuer = missingIssuer;
    }

    public X509Certificate2 Certificate { get; }

    public IReadOnlyList<X509Certificate2> Issuers { get; }

    /// <summary>
    /// Whom whoever verifies must know besides: the issuer at the end of the chain that was not with it, or null.
    /// </summary>
    public string? MissingIssuer { get; }

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
        var missing = MissingFrom(certificate, issuers, others);
        foreach (var unused in others.Except(issuers, ReferenceEqualityComparer.Instance).Cast<IDisposable>())
        {
            unused.Dispose();
        }
        var key = new SigningKey(certificate, issuers, missing);
        if (fault is not null)
        {
            key.Dispose();
            return new SigningKeyOutcome.Refused($"{where}: {fault}");
        }
        return new SigningKeyOutcome.Usable(key, created);
    }

    private static string? MissingFrom(
        X509Certificate2 certificate,
        IReadOnlyList<X509Certificate2> issuers,
        IReadOnlyList<X509Certificate2> others
    )
    {
        var last = issuers.Count == 0 ? certificate : issuers[^1];
        return
            IssuerChain.IsSelfIssued(last)
            || others.Any(one =>
                IssuerChain.IsSelfIssued(one)
                && one.SubjectName.RawData.AsSpan().SequenceEqual(last.IssuerName.RawData)
            )
            ? null
            : last.Issuer;
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
