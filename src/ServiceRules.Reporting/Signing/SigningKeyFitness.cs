using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Reporting.Signing;

/// <summary>What a certificate must be to sign a report: a P-256 key, in date, made for signing.</summary>
internal static class SigningKeyFitness
{
    private const string CurveP256 = "1.2.840.10045.3.1.7";
    private const string CurveKey = "1.2.840.10045.2.1";

    private const X509KeyUsageFlags Signing =
        X509KeyUsageFlags.DigitalSignature | X509KeyUsageFlags.NonRepudiation;

    // Any purpose; mail and documents (RFC 5280, RFC 9336): the purposes under which people sign what others read.
    private static readonly string[] Purposes = ["2.5.29.37.0", "1.3.6.1.5.5.7.3.4", "1.3.6.1.5.5.7.3.36"];

    /// <summary>The first thing wrong with a certificate that lies here with its key, or null.</summary>
    public static string? Fault(X509Certificate2 certificate, DateTimeOffset at) =>
        certificate.HasPrivateKey
            ? PublicFault(certificate, at)
            : "it holds a certificate without its private key; accepted: both";

    /// <summary>The first thing wrong with the certificate, wherever its key is, or null.</summary>
    public static string? PublicFault(X509Certificate2 certificate, DateTimeOffset at)
    {
        using var key = certificate.GetECDsaPublicKey();
        if (key is null || !IsP256(key))
        {
            // The platform shows no signing key in a certificate for key agreement only: its use is what is wrong.
            return
                certificate.PublicKey.Oid.Value == CurveKey
                && key is null
                && UsageFault(certificate) is { } fault
                ? fault
                : $"the key is {Kind(certificate, key)}; accepted: ECDSA on curve P-256, the one kind that reports are "
                    + "signed with";
        }
        if (at < certificate.NotBefore)
        {
            return $"the certificate is not valid before {UtcTime.Print(certificate.NotBefore)}; the report is of {UtcTime.Print(at)}; "
                + "accepted: a certificate that is valid then";
        }
        if (at > certificate.NotAfter)
        {
            return $"the certificate ended at {UtcTime.Print(certificate.NotAfter)}; the report is of {UtcTime.Print(at)}; accepted: a "
                + "certificate that is valid then";
        }
        return UsageFault(certificate);
    }

    /// <summary>Null when the certificate may make signatures that its owner answers for.</summary>
    public static string? UsageFault(X509Certificate2 certificate)
    {
        var usage = certificate.Extensions.OfType<X509KeyUsageExtension>().FirstOrDefault();
        if (usage is null || (usage.KeyUsages & Signing) == 0)
        {
            var found = usage is null ? "names no use" : $"is for {usage.KeyUsages}";
            return $"the certificate is not for signing: it {found}; accepted: key usage digitalSignature or nonRepudiation";
        }
        var purposes = certificate
            .Extensions.OfType<X509EnhancedKeyUsageExtension>()
            .SelectMany(extension => extension.EnhancedKeyUsages.Cast<Oid>())
            .ToList();
        return purposes.Count == 0 || purposes.Any(purpose => Purposes.Contains(purpose.Value))
            ? null
            : $"the certificate is not for signing documents: its extended key usage is "
                + $"{string.Join(", ", purposes.Select(purpose => purpose.FriendlyName ?? purpose.Value))}; accepted: none, "
                + "any, emailProtection or documentSigning";
    }

    public static bool IsP256(ECDsa key) =>
        key.ExportParameters(includePrivateParameters: false).Curve.Oid is { } curve
        && (curve.Value == CurveP256 || curve.FriendlyName is "nistP256" or "ECDSA_P256");

    private static string Kind(X509Certificate2 certificate, ECDsa? key) =>
        key is not null ? $"ECDSA on {key.ExportParameters(false).Curve.Oid?.FriendlyName ?? "another curve"}"
        : certificate.PublicKey.Oid.Value == CurveKey ? "ECDSA on an unknown curve"
        : certificate.PublicKey.Oid.FriendlyName ?? certificate.PublicKey.Oid.Value ?? "unknown";
}
