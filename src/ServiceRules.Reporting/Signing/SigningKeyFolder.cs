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

    /// <summary>The key that is there; none is made.</summary>
    public static SigningKeyOutcome Open(string folder, DateTimeOffset at)
    {
        var path = Path.Combine(folder, FileName);
        return File.Exists(path)
            ? Open(path, at, created: false)
            : new SigningKeyOutcome.Refused(
                $"there is no signing key in `{folder}`; the first report makes one"
            );
    }

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
        var draft = WritePrivately(path, PemOf(certificate));
        try
        {
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

    /// <summary>The key and its certificate in one text.</summary>
    internal static string PemOf(X509Certificate2 certificate)
    {
        using var key = certificate.GetECDsaPrivateKey()!;
        return $"{certificate.ExportCertificatePem()}\n{key.ExportPkcs8PrivateKeyPem()}\n";
    }

    /// <summary>Writes a file beside the path that only its owner can read, and tells where.</summary>
    internal static string WritePrivately(string path, string text)
    {
        var draft = $"{path}.{Path.GetRandomFileName()}";
        var options = new FileStreamOptions { Mode = FileMode.CreateNew, Access = FileAccess.Write };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = FileMode0600;
        }
        using var writer = new StreamWriter(draft, options);
        writer.Write(text);
        return draft;
    }

    /// <summary>Keeps other processes from changing the keys of the folder meanwhile.</summary>
    /// <exception cref="IOException">Another process is changing them.</exception>
    internal static IDisposable Hold(string folder) =>
        new FileStream(
            Path.Combine(folder, "changing"),
            FileMode.OpenOrCreate,
            FileAccess.ReadWrite,
            FileShare.None,
            bufferSize: 1,
            FileOptions.DeleteOnClose
        );

    internal static SigningKeyOutcome Open(string path, DateTimeOffset at, bool created)
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
