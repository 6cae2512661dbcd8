using System.Formats.Asn1;
using System.Security.Cryptography;
using System.Security.Cryptography.Pkcs;
using System.Security.Cryptography.X509Certificates;

namespace ServiceRules.Reporting.Signing;

/// <summary>
/// A detached CMS signature as PAdES baseline B-B asks (EN 319 142-1): SHA-256, ECDSA, signing-certificate-v2, no
/// signing-time attribute (the time is in the PDF's signature dictionary).
/// </summary>
public static class BaselineSignature
{
    /// <summary>
    /// Bytes kept free in the file. One certificate takes about 1,100; a chain of four stays well below this.
    /// </summary>
    public const int ReservedBytes = 8192;

    public static byte[] Over(byte[] content, IReportSigner reportSigner)
    {
        using var key = new SignerKey(reportSigner);
        var certificate = reportSigner.Certificate;
        var signer = new CmsSigner(SubjectIdentifierType.IssuerAndSerialNumber, certificate, key)
        {
            DigestAlgorithm = new Oid(PadesOids.Sha256),
            // Chain building would go to the machine's stores and perhaps the network.
            IncludeOption = X509IncludeOption.EndCertOnly,
        };
        foreach (var issuer in reportSigner.Issuers)
        {
            signer.Certificates.Add(issuer);
        }
        signer.SignedAttributes.Add(
            new AsnEncodedData(
                PadesOids.SigningCertificateV2,
                SigningCertificateV2(certificate, reportSigner.Issuers)
            )
        );
        var cms = new SignedCms(new ContentInfo(content), detached: true);
        cms.ComputeSignature(signer, silent: true);
        var encoded = cms.Encode();
        return encoded.Length <= ReservedBytes
            ? encoded
            : throw new InvalidOperationException(
                $"signature with its certificates takes {encoded.Length} bytes, {ReservedBytes} are reserved"
            );
    }

    /// <summary>
    /// RFC 5035: SigningCertificateV2 with one ESSCertIDv2 of the signer and then one of each issuer sent along, by the
    /// order of their digests: nobody can add one, or take one out. SHA-256 is the default algorithm and so is left out,
    /// as DER demands; issuer and serial number are given.
    /// </summary>
    internal static byte[] SigningCertificateV2(
        X509Certificate2 certificate,
        params IEnumerable<X509Certificate2> issuers
    )
    {
        var writer = new AsnWriter(AsnEncodingRules.DER);
        using (writer.PushSequence())
        using (writer.PushSequence())
        {
            WriteIdentifier(writer, certificate);
            foreach (var issuer in issuers.OrderBy(Digest, StringComparer.Ordinal))
            {
                WriteIdentifier(writer, issuer);
            }
        }
        return writer.Encode();
    }

    private static string Digest(X509Certificate2 certificate) =>
        Convert.ToHexString(SHA256.HashData(certificate.RawData));

    private static void WriteIdentifier(AsnWriter writer, X509Certificate2 certificate)
    {
        using var identifier = writer.PushSequence();
        writer.WriteOctetString(SHA256.HashData(certificate.RawData));
        using (writer.PushSequence())
        {
            using (writer.PushSequence())
            using (writer.PushSequence(new Asn1Tag(TagClass.ContextSpecific, 4)))
            {
                writer.WriteEncodedValue(certificate.IssuerName.RawData);
            }
            writer.WriteInteger(certificate.SerialNumberBytes.Span);
        }
    }
}
