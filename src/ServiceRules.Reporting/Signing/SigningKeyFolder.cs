using System.Security.Cryptography.X509Certificates;
using System.Text;
using ServiceRules.Application.Filed;

namespace ServiceRules.Reporting.Signing;

/// <summary>
/// The private folder of this machine's own signing key. Key and certificate are one file, written whole and then
/// moved into place, so that two first uses at once end with one key.
/// </summary>
public static class SigningKeyFolder
{
    /// <summary>That another process has it open: on Linux, on macOS, and the two of Windows.</summary>
    private static readonly int[] InUse = [11, 35, unchecked((int)0x80070020), unchecked((int)0x80070021)];

    public const string FileName = "report-signing.pem";

    private const string LockName = "changing";

    /// <summary>No key file of this product is near this size.</summary>
    private const long BytesMax = 64 * 1024;

    /// <summary>The key that is there; none is made.</summary>
    public static SigningKeyOutcome Open(string folder, DateTimeOffset at)
    {
        try
        {
            var path = Path.Combine(folder, FileName);
            return File.Exists(path)
                ? Open(path, at, created: false)
                : new SigningKeyOutcome.Refused($"{Missing(folder)}; the first report makes one");
        }
        catch (Exception problem) when (problem is IOException or UnauthorizedAccessException)
        {
            return new SigningKeyOutcome.Refused($"signing key in `{folder}`: {problem.Message}");
        }
    }

    /// <summary>Whether there is a key.</summary>
    public static bool IsBegun(string folder) => File.Exists(Path.Combine(folder, FileName));

    public static SigningKeyOutcome OpenOrCreate(string folder, string organisation, DateTimeOffset at)
    {
        try
        {
            var path = Path.Combine(folder, FileName);
            var created = false;
            if (!File.Exists(path))
            {
                if (PrivateFolder.Make(folder) is { } fault)
                {
                    return new SigningKeyOutcome.Refused($"no signing key is made: {fault}");
                }
                created = Create(path, organisation, at);
            }
            return Open(path, at, created);
        }
        catch (Exception problem)
            when (!DiskFull.Is(problem) && problem is IOException or UnauthorizedAccessException)
        {
            return new SigningKeyOutcome.Refused($"signing key in `{folder}`: {problem.Message}");
        }
    }

    // Where another process was first, its key is the machine's key.
    private static bool Create(string path, string organisation, DateTimeOffset at)
    {
        using var certificate = SigningKeyMaking.SelfSigned(organisation, at);
        return DurableFile.WriteNew(path, PemOf(certificate), DurableFile.Private);
    }

    /// <summary>The key and its certificate in one text.</summary>
    internal static byte[] PemOf(X509Certificate2 certificate)
    {
        using var key = certificate.GetECDsaPrivateKey()!;
        return Encoding.ASCII.GetBytes(
            $"{certificate.ExportCertificatePem()}\n{key.ExportPkcs8PrivateKeyPem()}\n"
        );
    }

    internal static string Missing(string folder) => $"there is no signing key in `{folder}`";

    /// <summary>
    /// Keeps other processes from changing the keys of the folder meanwhile. The file stays: whoever holds a file that
    /// was deleted keeps nobody from making another.
    /// </summary>
    /// <exception cref="IOException">Another process is changing them.</exception>
    internal static IDisposable Hold(string folder)
    {
        var options = new FileStreamOptions
        {
            Mode = FileMode.OpenOrCreate,
            Access = FileAccess.ReadWrite,
            Share = FileShare.None,
            BufferSize = 0,
        };
        if (!OperatingSystem.IsWindows())
        {
            options.UnixCreateMode = DurableFile.Private;
        }
        try
        {
            return new FileStream(Path.Combine(folder, LockName), options);
        }
        catch (IOException taken) when (InUse.Contains(taken.HResult))
        {
            throw new IOException(
                "another command is changing it at this moment; ask again when it has ended",
                taken
            );
        }
    }

    /// <summary>The text of a key file that nobody but its owner can read or put in place, or what is wrong.</summary>
    internal static (string? Text, string? Fault) Read(string path)
    {
        if (PrivateFolder.Fault(Path.GetDirectoryName(Path.GetFullPath(path))!) is { } open)
        {
            return (null, $"the folder of the signing key, {open}");
        }
        if (!RegularFile.Is(path))
        {
            return (null, $"signing key `{path}` is no regular file, or one with nothing in PEM in it");
        }
        if (PrivateFile.Fault(path) is { } shown)
        {
            return (null, $"signing key {shown}");
        }
        return new FileInfo(path).Length > BytesMax
            ? (null, $"signing key `{path}` is larger than {BytesMax} bytes")
            : (File.ReadAllText(path), null);
    }

    internal static SigningKeyOutcome Open(string path, DateTimeOffset at, bool created)
    {
        var (text, fault) = Read(path);
        return text is null
            ? new SigningKeyOutcome.Refused(fault!)
            : PemKey.Open([new PemText(path, text)], password: null, at, $"signing key `{path}`", created);
    }
}
