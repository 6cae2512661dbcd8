using System.CommandLine;
using System.Globalization;
using System.Security.Cryptography.X509Certificates;
using ServiceRules.Cli.Setup;
using ServiceRules.Reporting.Revocation;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Cli.Commands;

/// <summary><c>keys list</c>: which key signs, which did, and which are revoked.</summary>
internal static class KeysListCommand
{
    public static Command Of(Session session)
    {
        var command = new Command(
            "list",
            "Lists the keys of this machine: the one that signs, and those before it."
        )
        {
            SigningKeys.Folder,
        };
        command.SetAction(parsed => Run(parsed, session));
        return command;
    }

    private static int Run(ParseResult parsed, Session session)
    {
        var folder = SigningKeys.FolderOf(parsed);
        var list = RevocationLists.OfOwnKeys(folder);
        var signs = TrustedCertificates.Own(folder);
        if (signs.Count == 0)
        {
            session.Output.WriteLine($"no key signs in `{folder}` yet; the first report makes one");
        }

        foreach (var current in signs)
        {
            Tell(session.Output, "signs", current, list);
        }

        foreach (var retired in RetiredCertificates.In(folder))
        {
            Tell(session.Output, "retired", retired, list);
        }

        return ExitCode.Good;
    }

    private static void Tell(
        TextWriter output,
        string state,
        X509Certificate2 certificate,
        RevocationList? list
    )
    {
        var entry = list?.Covers(certificate) == true ? list.EntryOf(certificate) : null;
        output.WriteLine($"{state}: {certificate.Subject}");
        output.WriteLine($"  SHA-256  {CertificateFingerprint.Of(certificate)}");
        output.WriteLine($"  valid    {Day(certificate.NotBefore)} to {Day(certificate.NotAfter)}");
        if (entry is not null)
        {
            output.WriteLine(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"  revoked  from {entry.From.UtcDateTime:yyyy-MM-dd HH:mm:ss} UTC ({entry.ReasonTold})"
                )
            );
        }
    }

    private static string Day(DateTime at) =>
        at.ToUniversalTime().ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
