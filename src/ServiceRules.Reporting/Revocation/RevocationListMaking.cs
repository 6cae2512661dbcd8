using System.Numerics;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Reporting.Revocation;

/// <summary>Makes the list of an organisation that signs with certificates of its own making.</summary>
public static class RevocationListMaking
{
    /// <summary>
    /// The next list. It holds as long as the certificate that signs it: there is no service to renew it day by day.
    /// </summary>
    /// <param name="signer">Signs it; it must bear the name of the issuer of the certificates on the list.</param>
    /// <param name="earlier">The list so far, or null.</param>
    /// <param name="entries">All entries, old and new.</param>
    public static RevocationList Make(
        IReportSigner signer,
        RevocationList? earlier,
        IEnumerable<RevokedCertificate> entries,
        DateTimeOffset at
    )
    {
        var builder = new CertificateRevocationListBuilder();
        foreach (var entry in entries)
        {
            builder.AddEntry(Convert.FromHexString(entry.Serial), entry.From, entry.Reason);
        }
        using var key = new SignerKey(signer);
        var certificate = signer.Certificate;
        var encoded = builder.Build(
            certificate.SubjectName,
            X509SignatureGenerator.CreateForECDsa(key),
            (earlier?.Number ?? BigInteger.Zero) + 1,
            certificate.NotAfter,
            HashAlgorithmName.SHA256,
            X509AuthorityKeyIdentifierExtension.CreateFromCertificate(
                certificate,
                includeKeyIdentifier: true,
                includeIssuerAndSerial: false
            ),
            at
        );
        return RevocationList.Read(encoded).List
            ?? throw new InvalidOperationException("a revocation list was made that cannot be read");
    }
}
