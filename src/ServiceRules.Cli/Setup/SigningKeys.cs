using System.CommandLine;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Cli.Setup;

/// <summary>The key that signs reports here: made on first use in a private folder, or taken from a PKCS#12 file.</summary>
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

    public static Option<string> Organisation { get; } =
        new("--organisation")
        {
            Description = "Name in a certificate that is made on first use.",
            HelpName = "NAME",
            DefaultValueFactory = _ => "ServiceRules",
        };

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
        var at = session.Clock.GetUtcNow();
        var outcome = parsed.GetValue(Pkcs12) is { } file
            ? Pkcs12Key.Open(InputFile.ReadUpTo(file.FullName, Pkcs12Key.BytesMax), Password(parsed), at)
            : SigningKeyFolder.OpenOrCreate(FolderOf(parsed), parsed.GetValue(Organisation)!, at);
        switch (outcome)
        {
            case SigningKeyOutcome.Usable { Created: true, Key: var made }:
                session.Error.WriteLine(
                    $"A signing key was made in `{FolderOf(parsed)}`; its certificate has SHA-256 {made.Fingerprint}. "
                        + "Keep the folder private and backed up."
                );
                return made;
            case SigningKeyOutcome.Usable { Key: var key }:
                return key;
            case SigningKeyOutcome.Refused refused:
                throw new InputException($"no usable signing key: {refused.Reason}");
            default:
                throw new InvalidOperationException("an unknown outcome of opening a key");
        }
    }

    private static string Password(ParseResult parsed)
    {
        if (parsed.GetValue(PasswordFile) is not { } file)
        {
            return "";
        }

        var text = System.Text.Encoding.UTF8.GetString(InputFile.ReadUpTo(file.FullName, PasswordFileMost));
        return text.Split('\n')[0].TrimEnd('\r');
    }
}
