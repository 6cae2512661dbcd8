using System.Security.Cryptography.X509Certificates;

namespace ServiceRules.Reporting.Signing;

/// <summary>
/// Whether two certificates are one. The platform's own comparison asks for issuer and serial number alone, and anybody
/// can make another certificate with those.
/// </summary>
internal static class CertificateComparison
{
    public static bool HasBytesOf(this X509Certificate2 one, X509Certificate2 other) =>
        one.RawDataMemory.Span.SequenceEqual(other.RawDataMemory.Span);

    public static bool ContainsBytesOf(
        this IEnumerable<X509Certificate2> certificates,
        X509Certificate2 one
    ) => certificates.Any(one.HasBytesOf);

    /// <summary>A certificate that is there more than once, or null.</summary>
    public static X509Certificate2? Repeated(this IReadOnlyList<X509Certificate2> certificates) =>
        certificates.Where((one, index) => certificates.Take(index).ContainsBytesOf(one)).FirstOrDefault();
}
