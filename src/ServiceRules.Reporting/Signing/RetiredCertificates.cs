using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text;
using ServiceRules.Application.Filed;

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

    /// <summary>
    /// Keeps the certificate of a key that signed here. Whatever lies there is trusted: nothing may come from elsewhere.
    /// On return it has reached the disk.
    /// </summary>
    internal static void Keep(string keyFolder, X509Certificate2 certificate)
    {
        var folder = Directory.CreateDirectory(Path.Combine(keyFolder, FolderName)).FullName;
        DurableFile.SyncFolder(keyFolder);
        DurableFile.Write(
            Path.Combine(folder, Convert.ToHexStringLower(SHA256.HashData(certificate.RawData)) + ".pem"),
            Encoding.ASCII.GetBytes(certificate.ExportCertificatePem() + "\n"),
            DurableFile.Private
        );
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
