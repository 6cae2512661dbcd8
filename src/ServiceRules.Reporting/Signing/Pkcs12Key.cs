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
        DateTimeOffset at,
        string where = "PKCS#12 file"
    )
    {
        if (content.Length > BytesMax)
        {
            return new SigningKeyOutcome.Refused(
                $"{where}: larger than the {BytesMax} bytes that are accepted"
            );
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
                $"{where}: cannot be opened (wrong password, or not PKCS#12): {problem.Message}"
            );
        }
        var own = all.Where(certificate => certificate.HasPrivateKey).ToList();
        if (own.Count != 1)
        {
            return new SigningKeyOutcome.Refused(
                $"{where}: found {own.Count} private keys with their certificate; accepted: exactly one"
            );
        }
        return SigningKey.Admit(own[0], [.. all.Except(own)], at, where);
    }
}
