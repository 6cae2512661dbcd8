using System.CommandLine;
using System.Security.Cryptography.X509Certificates;
using ServiceRules.Reporting.Timestamping;

namespace ServiceRules.Cli.Setup;

/// <summary>Whose clock stamps reports here, and whose stamps count.</summary>
internal static class TimestampAuthorities
{
    public static Option<string?> Asked { get; } =
        new("--tsa")
        {
            Description =
                "Have the signature time-stamped by the authority at this address (RFC 3161). Without its stamp no report is written.",
            HelpName = "URL",
        };

    public static Option<FileInfo[]> Trusted { get; } =
        new("--trust-tsa")
        {
            Description =
                "Certificate (PEM or DER) of a time-stamp authority, or of its root, whose clock is trusted. May be given more than once.",
            HelpName = "CERT",
        };

    /// <exception cref="InputException">The address given cannot be used.</exception>
    public static HttpTimestampAuthority? Open(ParseResult parsed)
    {
        if (parsed.GetValue(Asked) is not { } address)
        {
            return null;
        }

        var (authority, fault) = HttpTimestampAuthority.At(address);
        return authority ?? throw new InputException($"{Asked.Name}: {fault}");
    }

    /// <exception cref="InputException">A file given is no certificate.</exception>
    public static IReadOnlyList<X509Certificate2> Load(ParseResult parsed) =>
        [.. (parsed.GetValue(Trusted) ?? []).Select(file => TrustedCertificates.Read(file.FullName))];
}
