using System.Formats.Asn1;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace ServiceRules.Reporting.Signing;

/// <summary>
/// What certificates and revocation lists have in common (X.509): content, algorithm, signature. For the two
/// questions that the platform answers for nobody: who signed a list, and whether a root signed itself.
/// </summary>
internal static class SignedObject
{
    private static readonly Dictionary<string, HashAlgorithmName> Curves = new(StringComparer.Ordinal)
    {
        [PadesOids.EcdsaWithSha256] = HashAlgorithmName.SHA256,
        ["1.2.840.10045.4.3.3"] = HashAlgorithmName.SHA384,
        ["1.2.840.10045.4.3.4"] = HashAlgorithmName.SHA512,
    };

    private static readonly Dictionary<string, HashAlgorithmName> Rsas = new(StringComparer.Ordinal)
    {
        ["1.2.840.113549.1.1.11"] = HashAlgorithmName.SHA256,
        ["1.2.840.113549.1.1.12"] = HashAlgorithmName.SHA384,
        ["1.2.840.113549.1.1.13"] = HashAlgorithmName.SHA512,
    };

    /// <summary>Whether the key of a certificate signed it, by an algorithm that is good today.</summary>
    public static bool IsSignedBy(ReadOnlyMemory<byte> encoded, X509Certificate2 signer)
    {
        try
        {
            var outer = new AsnReader(encoded, AsnEncodingRules.DER);
            var parts = outer.ReadSequence();
            outer.ThrowIfNotEmpty();
            var content = parts.ReadEncodedValue();
            var algorithm = parts.ReadSequence().ReadObjectIdentifier();
            var signature = parts.ReadBitString(out var unused);
            parts.ThrowIfNotEmpty();
            return unused == 0 && Holds(content.Span, algorithm, signature, signer);
        }
        catch (Exception problem) when (problem is AsnContentException or CryptographicException)
        {
            return false;
        }
    }

    private static bool Holds(
        ReadOnlySpan<byte> content,
        string algorithm,
        byte[] signature,
        X509Certificate2 signer
    )
    {
        if (Curves.TryGetValue(algorithm, out var digest))
        {
            using var curve = signer.GetECDsaPublicKey();
            return curve?.VerifyData(content, signature, digest, DSASignatureFormat.Rfc3279DerSequence)
                == true;
        }
        if (Rsas.TryGetValue(algorithm, out digest))
        {
            using var rsa = signer.GetRSAPublicKey();
            return rsa?.VerifyData(content, signature, digest, RSASignaturePadding.Pkcs1) == true;
        }
        return false;
    }
}
