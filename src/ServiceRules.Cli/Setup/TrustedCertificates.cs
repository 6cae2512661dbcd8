using System.CommandLine;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Cli.Setup;

/// <summary>Whose signatures count here: this machine's own key, and the certificates given.</summary>
internal static class TrustedCertificates
{
    private const int CertificateMost = 64 * 1024;

    public static Option<FileInfo[]> Option { get; } =
        new("--trust")
        {
            Description =
                "Certificate (PEM or DER) whose signatures are trusted. May be given more than once.",
            HelpName = "CERT",
        };

    /// <exception cref="InputException">A file given is no certificate.</exception>
    public static IReadOnlyList<X509Certificate2> Load(ParseResult parsed)
    {
        List<X509Certificate2> trusted =
        [
            .. (parsed.GetValue(Option) ?? []).Select(file => Read(file.FullName)),
        ];
        var own = Path.Combine(SigningKeys.FolderOf(parsed), SigningKeyFolder.FileName);
        if (File.Exists(own))
        {
            trusted.Add(Read(own));
        }

        return trusted;
    }

    /// <exception cref="InputException">It is no certificate.</exception>
    public static X509Certificate2 Read(string path)
    {
        var bytes = InputFile.ReadUpTo(path, CertificateMost);
        try
        {
            var text = System.Text.Encoding.ASCII.GetString(bytes);
            return text.Contains("-----BEGIN CERTIFICATE-----", StringComparison.Ordinal)
                ? X509Certificate2.CreateFromPem(text)
                : X509CertificateLoader.LoadCertificate(bytes);
        }
        catch (CryptographicException)
        {
            throw new InputException(
                $"`{path}` holds no certificate; accepted: one X.509 certificate in PEM or DER form"
            );
        }
    }
}
