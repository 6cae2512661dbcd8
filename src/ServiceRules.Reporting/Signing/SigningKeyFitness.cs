using System.Globalization;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace ServiceRules.Reporting.Signing;

/// <summary>What a certificate must be to sign a report: a P-256 key, in date, made for signing.</summary>
internal static class SigningKeyFitness
{
    private const string CurveP256 = "1.2.840.10045.3.1.7";

    /// <summary>The first thing wrong with it, or null.</summary>
    public static string? Fault(X509Certificate2 certificate, DateTimeOffset at)
    {
        if (!certificate.HasPrivateKey)
        {
            return "the file holds a certificate without its private key";
        }
        using var key = certificate.GetECDsaPrivateKey();
        if (key is null || !IsP256(key))
        {
            return "the key is not ECDSA on curve P-256, the one kind accepted for reports";
        }
        if (at < certificate.NotBefore)
        {
            return $"the certificate is not valid before {Utc(certificate.NotBefore)}; the report is of {Utc(at)}";
        }
        if (at > certificate.NotAfter)
        {
            return $"the certificate ended at {Utc(certificate.NotAfter)}; the report is of {Utc(at)}";
        }
        return UsageFault(certificate);
    }

    /// <summary>Null when the certificate may make signatures that its owner answers for.</summary>
    public static string? UsageFault(X509Certificate2 certificate)
    {
        var usage = certificate.Extensions.OfType<X509KeyUsageExtension>().FirstOrDefault();
        const X509KeyUsageFlags Wanted =
            X509KeyUsageFlags.DigitalSignature | X509KeyUsageFlags.NonRepudiation;
        return usage is null || (usage.KeyUsages & Wanted) == 0
            ? "the certificate is not for signing: key usage must have digitalSignature or nonRepudiation"
            : null;
    }

    public static bool IsP256(ECDsa key) =>
        key.ExportParameters(includePrivateParameters: false).Curve.Oid is { } curve
        && (curve.Value == CurveP256 || curve.FriendlyName is "nistP256" or "ECDSA_P256");

    private static string Utc(DateTimeOffset at) =>
        at.ToUniversalTime().ToString("yyyy-MM-dd HH:mm 'UTC'", CultureInfo.InvariantCulture);
}
