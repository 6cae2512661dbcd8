using System.CommandLine;
using System.Security.Cryptography;
using System.Security.Cryptography.X509Certificates;
using System.Text;
using ServiceRules.Cli.Setup;
using ServiceRules.Reporting.Revocation;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Cli.Commands;

/// <summary><c>keys revoke FINGERPRINT</c>: the reports of a key no longer count from a time on.</summary>
internal static class KeysRevokeCommand
{
    private const int DigitsLeast = 8;

    private static readonly Dictionary<string, X509RevocationReason> Reasons = new(StringComparer.Ordinal)
    {
        ["key-compromise"] = X509RevocationReason.KeyCompromise,
        ["superseded"] = X509RevocationReason.Superseded,
        ["cessation"] = X509RevocationReason.CessationOfOperation,
    };

    private static readonly Argument<string[]> Fingerprint = new("FINGERPRINT")
    {
        Description =
            "SHA-256 of the certificate as printed on its reports, or its first eight digits; or a file with the certificate.",
        Arity = ArgumentArity.OneOrMore,
    };

    private static readonly Option<string?> Reason = new("--reason")
    {
        Description =
            "key-compromise: somebody else may have had it; superseded or cessation: it was given up in good order.",
    };

    private static readonly Option<string?> From = new("--from")
    {
        Description = "Since when, such as 2026-03-01 or 2026-03-01T07:30:00Z.",
        HelpName = "TIME",
    };

    private static readonly Option<FileInfo?> Output = new("--out")
    {
        Description = "Also write the list here, for whoever verifies: they give it with --revocations.",
        HelpName = "FILE.pem",
    };

    public static Command Of(Session session)
    {
        Reason.AcceptOnlyFromAmong([.. Reasons.Keys]);
        var command = new Command(
            "revoke",
            "Puts a key on the revocation list, which the key that signs now signs, and writes the list."
        )
        {
            Fingerprint,
            Reason,
            From,
            Output,
            SigningKeys.Folder,
        };
        command.SetAction(parsed => Run(parsed, session));
        return command;
    }

    private static int Run(ParseResult parsed, Session session)
    {
        var folder = SigningKeys.FolderOf(parsed);
        var at = session.Clock.GetUtcNow();
        var from =
            GivenValue.Instant(parsed, From)
            ?? throw new InputException(
                "--from is not given: since when the key does not count; accepted: `--from 2026-03-01` (its start, UTC) or "
                    + "`--from 2026-03-01T07:30:00Z`"
            );
        var reason =
            parsed.GetValue(Reason)
            ?? throw new InputException(
                $"--reason is not given: why the key does not count; accepted: {string.Join(", ", Reasons.Keys)}"
            );
        RevocationLists.CheckPlace(parsed.GetValue(Output));
        using var revoked = Find(folder, string.Concat(parsed.GetRequiredValue(Fingerprint)));
        var list = KeyRevocation.Revoke(folder, revoked, Reasons[reason], from, at) switch
        {
            KeyRevocationOutcome.Revoked done => done.List,
            KeyRevocationOutcome.Refused refused => throw new InputException(refused.Reason),
            _ => throw new InvalidOperationException("an unknown outcome of revoking a key"),
        };
        if (parsed.GetValue(Output) is { } copy)
        {
            InputFile.Write(copy.FullName, Encoding.ASCII.GetBytes(list.Pem + "\n"));
        }

        session.Tell(
            $"revoked: SHA-256 {CertificateFingerprint.Of(revoked)}, the list is in `{RevocationFile.In(folder)}`"
        );
        session.Tell(
            "Hand it, and the certificate of the key that signs now, to those who verify reports of the keys before: "
                + "--revocations and --trust."
        );
        return ExitCode.Good;
    }

    private static X509Certificate2 Find(string folder, string given)
    {
        if (File.Exists(given))
        {
            return TrustedCertificates.Read(given);
        }

        X509Certificate2[] known = [.. RetiredCertificates.In(folder), .. TrustedCertificates.Own(folder)];
        var digits = string.Concat(given.Where(symbol => symbol is not (' ' or ':')));
        var found = known
            .Where(one =>
                digits.Length >= DigitsLeast
                && Convert
                    .ToHexString(SHA256.HashData(one.RawData))
                    .StartsWith(digits, StringComparison.OrdinalIgnoreCase)
            )
            .ToList();
        return found.Count == 1
            ? found[0]
            : throw new InputException(
                $"`{given}` names no key that is known in `{folder}`; accepted: eight or more digits of a SHA-256 that `keys list` "
                    + "tells, or a file with the certificate"
            );
    }
}
