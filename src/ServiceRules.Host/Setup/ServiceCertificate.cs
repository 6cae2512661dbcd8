using System.Formats.Asn1;
using System.Globalization;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using ServiceRules.Application.Filed;

namespace ServiceRules.Host.Setup;

/// <summary>The certificate that the service speaks TLS with: whose names are its own names.</summary>
internal sealed class ServiceCertificate : IDisposable
{
    private const string ServerUse = "1.3.6.1.5.5.7.3.1";
    private static readonly TimeSpan EndsSoon = TimeSpan.FromDays(14);

    private ServiceCertificate(X509Certificate2 certificate, X509Certificate2Collection chain)
    {
        Certificate = certificate;
        Chain = chain;
        var names = certificate.Extensions.OfType<X509SubjectAlternativeNameExtension>().ToList();
        Names =
        [
            .. names.SelectMany(one => one.EnumerateDnsNames()),
            .. names
                .SelectMany(one => one.EnumerateIPAddresses())
                .Select(one =>
                    one.AddressFamily is System.Net.Sockets.AddressFamily.InterNetworkV6
                        ? $"[{one}]"
                        : one.ToString()
                ),
        ];
    }

    public X509Certificate2 Certificate { get; }

    /// <summary>Those that lead to its root.</summary>
    public X509Certificate2Collection Chain { get; }

    /// <summary>The names of hosts and the addresses that it is for, as a request would spell them.</summary>
    public IReadOnlyList<string> Names { get; }

    /// <exception cref="StartRefusedException">It cannot be used.</exception>
    public static ServiceCertificate Open(TlsFiles files, DateTimeOffset now)
    {
        try
        {
            CheckPrivate(files.Key);
            var chain = new X509Certificate2Collection();
            chain.ImportFromPemFile(files.Certificate);
            using var pair = X509Certificate2.CreateFromPemFile(files.Certificate, files.Key);
            // A key that lives in memory alone is not taken by TLS on every system.
            var certificate = X509CertificateLoader.LoadPkcs12(pair.Export(X509ContentType.Pkcs12), null);
            chain.RemoveAt(0);
            var own = new ServiceCertificate(certificate, chain);
            if (own.Fault(now) is { } fault)
            {
                own.Dispose();
                throw new StartRefusedException($"--certificate: `{files.Certificate}` {fault}");
            }

            return own;
        }
        catch (Exception failure)
            when (failure is CryptographicException or ArgumentException or AsnContentException)
        {
            throw new StartRefusedException(
                $"--certificate, --certificate-key: `{files.Certificate}` and `{files.Key}` cannot be used together: {failure.Message}",
                "accepted: a certificate in PEM, and the private key that belongs to it in PEM, not encrypted"
            );
        }
        catch (Exception failure) when (failure is IOException or UnauthorizedAccessException)
        {
            throw new StartRefusedException($"--certificate, --certificate-key: {failure.Message}");
        }
    }

    /// <summary>What a person should know of it, though it stops nothing.</summary>
    public string? Remark(DateTimeOffset now) =>
        Certificate.NotAfter - now.LocalDateTime < EndsSoon
            ? string.Create(
                CultureInfo.InvariantCulture,
                $"the certificate of the service ends on {Certificate.NotAfter:yyyy-MM-dd}: renew it, and start the service again"
            )
            : null;

    public void Dispose()
    {
        Certificate.Dispose();
        foreach (var one in Chain)
        {
            one.Dispose();
        }
    }

    private string? Fault(DateTimeOffset now) =>
        now.LocalDateTime < Certificate.NotBefore || now.LocalDateTime > Certificate.NotAfter
            ? string.Create(
                CultureInfo.InvariantCulture,
                $"holds from {Certificate.NotBefore:yyyy-MM-dd} to {Certificate.NotAfter:yyyy-MM-dd} and not today; accepted: one that holds today"
            )
        : Names.Count == 0
            ? "names no host; accepted: one whose subject alternative names are the names that the service is asked under"
        : Certificate.Extensions.OfType<X509EnhancedKeyUsageExtension>().FirstOrDefault() is { } uses
        && !uses.EnhancedKeyUsages.Cast<Oid>().Any(use => use.Value == ServerUse)
            ? "is not for servers; accepted: one that is for TLS servers"
        : null;

    private static void CheckPrivate(string key)
    {
        if (Path.Exists(key) && PrivateFile.Fault(key) is { } open)
        {
            throw new StartRefusedException($"--certificate-key: {open}");
        }
    }
}
