using System.CommandLine;
using System.Globalization;
using System.Security.Cryptography.X509Certificates;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;
using ServiceRules.Domain.Timeline;
using ServiceRules.Reporting.Revocation;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Cli.Commands;

/// <summary><c>keys list</c>: which key signs, which did, and which are revoked.</summary>
internal static class KeysListCommand
{
    private const string Json = "json";

    public static Command Of(Session session)
    {
        var format = new Option<string>("--format")
        {
            Description = "text, or json: one line.",
            DefaultValueFactory = _ => "text",
        };
        format.AcceptOnlyFromAmong("text", Json);
        var command = new Command(
            "list",
            "Lists the keys of this machine: the one that signs, and those before it."
        )
        {
            SigningKeys.Folder,
            format,
        };
        command.SetAction(parsed => Run(parsed, parsed.GetValue(format) == Json, session));
        return command;
    }

    private static int Run(ParseResult parsed, bool asJson, Session session)
    {
        var folder = SigningKeys.FolderOf(parsed);
        var list = RevocationLists.OfOwnKeys(folder);
        var signs = TrustedCertificates.Own(folder).Select(one => ("signs", one, RevokedBy(list, one)));
        var retired = RetiredCertificates.In(folder).Select(one => ("retired", one, RevokedBy(list, one)));
        var keys = signs.ToList();
        if (keys.Count == 0 && !asJson)
        {
            session.Tell($"no key signs in `{folder}` yet; the first report makes one");
        }

        keys.AddRange(retired);
        if (asJson)
        {
            session.Output.WriteLine(KeysJson.Of(keys));
            return ExitCode.Good;
        }

        foreach (var (state, certificate, revoked) in keys)
        {
            Tell(session.Output, state, certificate, revoked);
        }

        return ExitCode.Good;
    }

    private static RevokedCertificate? RevokedBy(RevocationList? list, X509Certificate2 certificate) =>
        list?.Covers(certificate) == true ? list.EntryOf(certificate) : null;

    private static void Tell(
        TextWriter output,
        string state,
        X509Certificate2 certificate,
        RevokedCertificate? revoked
    )
    {
        output.WriteLine(SeenText.OneLine($"{state}: {certificate.Subject}"));
        output.WriteLine($"  SHA-256  {CertificateFingerprint.Of(certificate)}");
        output.WriteLine($"  valid    {Day(certificate.NotBefore)} to {Day(certificate.NotAfter)}");
        if (revoked is not null)
        {
            output.WriteLine($"  revoked  from {UtcTime.Print(revoked.From)} ({revoked.ReasonTold})");
        }
    }

    private static string Day(DateTime at) =>
        at.ToUniversalTime().ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
