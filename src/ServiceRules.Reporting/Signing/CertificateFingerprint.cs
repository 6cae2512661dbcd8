using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace ServiceRules.Reporting.Signing;

/// <summary>SHA-256 of a certificate in groups of four hex digits.</summary>
public static class CertificateFingerprint
{
    public static string Of(X509Certificate2 certificate)
    {
        var digits = Convert.ToHexStringLower(SHA256.HashData(certificate.RawData));
        return string.Join(' ', digits.Chunk(4).Select(group => new string(group)));
    }
}
