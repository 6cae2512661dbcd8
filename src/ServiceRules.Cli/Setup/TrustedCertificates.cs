using System.CommandLine;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Cli.Setup;

/// <summary>Whose signatures count here: this machine's own keys, today's and earlier, and the certificates given.</summary>
internal static class TrustedCertificates
{
    private const int CertificateMost = 64 * 1024;
    private const string PemBegin = "-----BEGIN ";

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
        var folder = SigningKeys.FolderOf(parsed);
        trusted.AddRange(Own(folder));
        trusted.AddRange(RetiredCertificates.In(folder));
        return trusted;
    }

    /// <summary>The certificate of the key that signs here; none when there is no key yet.</summary>
    /// <exception cref="InputException">The file is there and holds no certificate.</exception>
    public static IReadOnlyList<X509Certificate2> Own(string folder)
    {
        string[] paths = [Path.Combine(folder, SigningKeyFolder.FileName)];
        return [.. paths.Where(File.Exists).Select(Read)];
    }

    /// <exception cref="InputException">It is no certificate.</exception>
    public static X509Certificate2 Read(string path)
    {
        var bytes = InputFile.ReadUpTo(path, CertificateMost);
        return Read(bytes)
            ?? throw new InputException(
                $"`{path}` holds no certificate; accepted: one X.509 certificate in PEM or DER form"
            );
    }

    /// <summary>Refuses to write a certificate over what is something else, or a key as well.</summary>
    /// <exception cref="InputException">There is such a file.</exception>
    public static void CheckPlace(FileInfo? target)
    {
        if (target is not null)
        {
            InputFile.CheckPlace(target.FullName, CertificateMost, IsAlone, "certificate alone");
        }
    }

    // In PEM a key may stand beside it, or the rest of a chain.
    private static bool IsAlone(byte[] bytes)
    {
        using var certificate = Read(bytes);
        return certificate is not null && Encoding.ASCII.GetString(bytes).Split(PemBegin).Length <= 2;
    }

    private static X509Certificate2? Read(byte[] bytes)
    {
        try
        {
            var text = Encoding.ASCII.GetString(bytes);
            return text.Contains("-----BEGIN CERTIFICATE-----", StringComparison.Ordinal)
                ? X509Certificate2.CreateFromPem(text)
                : X509CertificateLoader.LoadCertificate(bytes);
        }
        catch (CryptographicException)
        {
            return null;
        }
    }
}
