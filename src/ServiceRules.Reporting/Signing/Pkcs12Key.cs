using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace ServiceRules.Reporting.Signing;

/// <summary>A signing key brought along in a PKCS#12 file.</summary>
public static class Pkcs12Key
{
    /// <summary>A key with a long chain is some kilobytes.</summary>
    public const int BytesMax = 1024 * 1024;

    public static SigningKeyOutcome Open(
        ReadOnlyMemory<byte> content,
        ReadOnlySpan<char> password,
        DateTimeOffset at
    )
    {
        if (content.Length > BytesMax)
        {
            return new SigningKeyOutcome.Refused($"PKCS#12 file is larger than {BytesMax} bytes");
        }
        X509Certificate2Collection all;
        try
        {
            all = X509CertificateLoader.LoadPkcs12Collection(
                content.Span,
                password,
                X509KeyStorageFlags.EphemeralKeySet
            );
        }
        catch (CryptographicException problem)
        {
            return new SigningKeyOutcome.Refused(
                $"PKCS#12 file cannot be opened (wrong password, or not PKCS#12): {problem.Message}"
            );
        }
        var own = all.Where(certificate => certificate.HasPrivateKey).ToList();
        if (own.Count != 1)
        {
            return new SigningKeyOutcome.Refused(
                $"PKCS#12 file holds {own.Count} private keys; exactly one is accepted"
            );
        }
        // The root adds nothing to a chain: whoever checks must already have it.
        var issuers = all.Where(certificate =>
            !certificate.HasPrivateKey
            && !certificate.SubjectName.RawData.AsSpan().SequenceEqual(certificate.IssuerName.RawData)
        );
        return SigningKey.Admit(own[0], [.. issuers], at, "PKCS#12 file");
    }
}
