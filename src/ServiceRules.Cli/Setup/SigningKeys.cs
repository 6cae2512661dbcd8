using System.CommandLine;
using System.Text;
using ServiceRules.Application.Filed;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Cli.Setup;

/// <summary>
/// The key that signs reports here: made on first use in a private folder, or taken from a PKCS#12 or PEM file.
/// </summary>
internal static class SigningKeys
{
    private const int PasswordFileMost = 4096;

    public static Option<DirectoryInfo?> Folder { get; } =
        new("--keys")
        {
            Description =
                "Private folder of the signing key. Default: servicerules/keys in the user's data folder.",
            HelpName = "DIR",
        };

    public static Option<FileInfo?> Pkcs12 { get; } =
        new("--p12") { Description = "Sign with the key in this PKCS#12 file.", HelpName = "FILE" };

    public static Option<FileInfo?> PasswordFile { get; } =
        new("--p12-password")
        {
            Description = "File whose first line is the password of the PKCS#12 file.",
            HelpName = "FILE",
        };

    public static Option<FileInfo?> Pem { get; } =
        new("--key")
        {
            Description =
                "Sign with the private key in this PEM file; it may hold the certificate and its issuers too, in any order.",
            HelpName = "FILE.pem",
        };

    public static Option<FileInfo?> Chain { get; } =
        new("--chain")
        {
            Description =
                "PEM file with the certificate of the key and its issuers, when they are not with it.",
            HelpName = "FILE.pem",
        };

    public static Option<FileInfo?> PemPasswordFile { get; } =
        new("--key-password")
        {
            Description = "File whose first line is the password of the encrypted PEM key.",
            HelpName = "FILE",
        };

    public static Option<string?> Organisation { get; } =
        new("--organisation")
        {
            Description = "Name in a certificate that is made on first use. Default: the site in the rules.",
            HelpName = "NAME",
        };

    /// <summary>Every way to say which key signs.</summary>
    public static IEnumerable<Option> All =>
        [Folder, Pkcs12, PasswordFile, Pem, Chain, PemPasswordFile, Organisation];

    public static string FolderOf(ParseResult parsed) =>
        parsed.GetValue(Folder)?.FullName
        ?? Path.Combine(
            Environment.GetFolderPath(
                Environment.SpecialFolder.LocalApplicationData,
                Environment.SpecialFolderOption.DoNotVerify
            ),
            "servicerules",
            "keys"
        );

    /// <exception cref="InputException">There is no usable key.</exception>
    public static SigningKey Open(ParseResult parsed, Session session)
    {
        switch (Outcome(parsed, session.Clock.GetUtcNow()))
        {
            case SigningKeyOutcome.Usable { Created: true, Key: var made }:
                session.Error.WriteLine(
                    $"A signing key was made in `{FolderOf(parsed)}`; its certificate has SHA-256 {made.Fingerprint}. "
                        + "Keep the folder private and backed up."
                );
                return made;
            case SigningKeyOutcome.Usable { Key: var key }:
                if (key.MissingIssuer is { } missing)
                {
                    session.Error.WriteLine(
                        $"The chain of the signing key ends below `{missing}`, whose certificate is not with it: whoever verifies "
                            + "must have that certificate, or trust the signing certificate itself."
                    );
                }
                return key;
            case SigningKeyOutcome.Refused refused:
                throw new InputException($"no usable signing key: {refused.Reason}");
            default:
                throw new InvalidOperationException("an unknown outcome of opening a key");
        }
    }

    private static SigningKeyOutcome Outcome(ParseResult parsed, DateTimeOffset at)
    {
        var (pkcs12, pem) = (parsed.GetValue(Pkcs12), parsed.GetValue(Pem));
        Require(pkcs12 is null || pem is null, "--p12 and --key each name a key; accepted: one of them");
        Require(
            pem is not null || (parsed.GetValue(Chain) ?? parsed.GetValue(PemPasswordFile)) is null,
            "--chain and --key-password go with a PEM key; accepted: together with --key FILE.pem"
        );
        if (pkcs12 is not null)
        {
            var content = InputFile.ReadUpTo(pkcs12.FullName, Pkcs12Key.BytesMax);
            return Pkcs12Key.Open(content, Password(parsed, PasswordFile) ?? "", at, $"`{pkcs12.Name}`");
        }
        if (pem is null)
        {
            var folder = FolderOf(parsed);
            return SigningKeyFolder.IsBegun(folder)
                ? SigningKeyFolder.Open(folder, at)
                : SigningKeyFolder.OpenOrCreate(folder, OrganisationOf(parsed), at);
        }
        var files = new List<PemText> { ReadPem(pem) };
        if (parsed.GetValue(Chain) is { } chain && chain.FullName != pem.FullName)
        {
            files.Add(ReadPem(chain));
        }
        return PemKey.Open(files, Password(parsed, PemPasswordFile), at);
    }

    private static string OrganisationOf(ParseResult parsed) =>
        parsed.GetValue(Organisation) ?? RulesInForce.Load(parsed).Site?.Name ?? "ServiceRules";

    private static PemText ReadPem(FileInfo file)
    {
        var bytes = InputFile.ReadUpTo(file.FullName, PemKey.BytesMax);
        Require(
            bytes.Length <= PemKey.BytesMax,
            $"`{file.Name}` is larger than the {PemKey.BytesMax} bytes that are accepted"
        );
        var text = Encoding.Latin1.GetString(bytes);
        // The key may stand in either file.
        Require(
            !text.Contains("PRIVATE KEY", StringComparison.Ordinal)
                || PemKey.IsEncrypted(text)
                || PrivateFile.Is(file.FullName),
            $"no usable signing key: `{file.Name}` holds a key that is not encrypted, and can be read by others; accepted: "
                + "a file of mode 600, or an encrypted key"
        );
        return new PemText(file.Name, text);
    }

    private static void Require(bool condition, string otherwise)
    {
        if (!condition)
        {
            throw new InputException(otherwise);
        }
    }

    private static string? Password(ParseResult parsed, Option<FileInfo?> option)
    {
        if (parsed.GetValue(option) is not { } file)
        {
            return null;
        }

        var text = Encoding.UTF8.GetString(InputFile.ReadUpTo(file.FullName, PasswordFileMost));
        Require(
            PrivateFile.Is(file.FullName),
            $"no usable signing key: the password in `{file.Name}` can be read by others; accepted: a file of mode 600"
        );
        return text.Split('\n')[0].TrimEnd('\r');
    }
}
