using System.Security.Cryptography.X509Certificates;

namespace ServiceRules.Reporting.Signing;

/// <summary>
/// The private folder of this machine's own signing key. Key and certificate are one file, written whole and then
/// moved into place, so that two first uses at once end with one key.
/// </summary>
public static class SigningKeyFolder
{
    public const string FileName = "report-signing.pem";

    private const UnixFileMode FolderMode =
        UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute;

    private const UnixFileMode FileMode0600 = UnixFileMode.UserRead | UnixFileMode.UserWrite;

    /// <summary>No key file of this product is near this size.</summary>
    private const long BytesMax = 64 * 1024;

    public static SigningKeyOutcome OpenOrCreate(string folder, string organisation, DateTimeOffset at)
    {
        try
        {
            var path = Path.Combine(folder, FileName);
            var created = false;
            if (!File.Exists(path))
            {
                Create(folder, path, organisation, at);
                created = true;
            }
            return Open(path, at, created);
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            return new SigningKeyOutcome.Refused($"signing key in `{folder}`: {problem.Message}");
        }
    }

    /// <summary>Whether nobody but its owner can read the file; on Windows that is left to the folder.</summary>
    public static bool IsPrivate(string path) =>
        OperatingSystem.IsWindows() || (File.GetUnixFileMode(path) & ~FileMode0600) == 0;

    private static void Create(string folder, string path, string organisation, DateTimeOffset at)
    {
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(folder);
        }
        else
        {
            Directory.CreateDirectory(folder, FolderMode);
        }
        using var certificate = SigningKeyMaking.SelfSigned(organisation, at);
        using var key = certificate.GetECDsaPrivateKey()!;
        var pem = $"{certificate.ExportCertificatePem()}\n{key.ExportPkcs8PrivateKeyPem()}\n";
        var draft = Path.Combine(folder, $"{FileName}.{Path.GetRandomFileName()}");
        var options = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = FileMode0600;
        }
        try
        {
            using (var writer = new StreamWriter(draft, options))
            {
                writer.Write(pem);
            }
            File.Move(draft, path, overwrite: false);
        }
        catch (IOException) when (File.Exists(path))
        {
            // Another process was first: its key is the machine's key.
        }
        finally
        {
            File.Delete(draft);
        }
    }

    private static SigningKeyOutcome Open(string path, DateTimeOffset at, bool created)
    {
        if (!IsPrivate(path))
        {
            return new SigningKeyOutcome.Refused(
                $"signing key `{path}` can be read by others; make it private with chmod 600"
            );
        }
        if (new FileInfo(path).Length > BytesMax)
        {
            return new SigningKeyOutcome.Refused($"signing key `{path}` is larger than {BytesMax} bytes");
        }
        var where = $"signing key `{path}`";
        return PemKey.Open([new PemText(path, File.ReadAllText(path))], password: null, at, where, created);
    }
}
