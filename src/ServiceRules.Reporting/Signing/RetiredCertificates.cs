using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;

namespace ServiceRules.Reporting.Signing;

/// <summary>Certificates of keys that no longer sign, kept so that their reports can be checked.</summary>
public static class RetiredCertificates
{
    public const string FolderName = "retired";

    private const int BytesMax = 64 * 1024;

    /// <summary>All of them, by their fingerprints' order; files that are something else are passed over.</summary>
    public static IReadOnlyList<X509Certificate2> In(string keyFolder)
    {
        var folder = Path.Combine(keyFolder, FolderName);
        return Directory.Exists(folder)
            ?
            [
                .. Directory
                    .EnumerateFiles(folder, "*.pem")
                    .Order(StringComparer.Ordinal)
                    .Select(Read)
                    .OfType<X509Certificate2>(),
            ]
            : [];
    }

    public static void Keep(string keyFolder, X509Certificate2 certificate)
    {
        var folder = Directory.CreateDirectory(Path.Combine(keyFolder, FolderName)).FullName;
        var name = Convert.ToHexStringLower(SHA256.HashData(certificate.RawData)) + ".pem";
        var draft = Path.Combine(folder, Path.GetRandomFileName());
        File.WriteAllText(draft, certificate.ExportCertificatePem() + "\n");
        File.Move(draft, Path.Combine(folder, name), overwrite: true);
    }

    private static X509Certificate2? Read(string path)
    {
        try
        {
            return new FileInfo(path).Length <= BytesMax
                ? X509Certificate2.CreateFromPem(File.ReadAllText(path))
                : null;
        }
        catch (CryptographicException)
        {
            return null;
        }
    }
}
