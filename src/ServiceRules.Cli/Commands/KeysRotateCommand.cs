using System.CommandLine;
using System.Text;
using ServiceRules.Cli.Setup;
using ServiceRules.Reporting.Signing;

namespace ServiceRules.Cli.Commands;

/// <summary><c>keys rotate</c>: a new key signs from now on.</summary>
internal static class KeysRotateCommand
{
    public static Command Of(Session session)
    {
        var certificate = new Option<FileInfo?>("--certificate-out")
        {
            Description =
                "Also write the new certificate (PEM), for whoever is to verify: they give it with --trust.",
            HelpName = "CERT.pem",
        };
        var command = new Command(
            "rotate",
            "Makes a new key that signs from now on; destroys the old one and keeps its certificate, so that its reports stay trusted here."
        )
        {
            SigningKeys.Folder,
            certificate,
        };
        command.SetAction(parsed => Run(parsed, parsed.GetValue(certificate), session));
        return command;
    }

    private static int Run(ParseResult parsed, FileInfo? certificate, Session session)
    {
        var folder = SigningKeys.FolderOf(parsed);
        TrustedCertificates.CheckPlace(certificate);
        switch (KeyRotation.Rotate(folder, session.Clock.GetUtcNow()))
        {
            case KeyRotationOutcome.Rotated rotated:
                using (rotated.Key)
                {
                    session.Tell($"signs now: SHA-256 {rotated.Key.Fingerprint}");
                    session.Tell($"retired:   SHA-256 {rotated.Retired}");
                    session.Tell(
                        "Hand the new certificate to those who verify. Copies of the old key in backups can still sign: destroy them, "
                            + "and say with `keys revoke` from when on the old key does not count."
                    );
                    if (certificate is not null)
                    {
                        InputFile.Write(
                            certificate.FullName,
                            Encoding.ASCII.GetBytes(rotated.Key.CertificatePem + "\n")
                        );
                    }
                }

                return ExitCode.Good;
            case KeyRotationOutcome.Refused refused:
                throw new InputException(refused.Reason);
            default:
                throw new InvalidOperationException("an unknown outcome of following a key");
        }
    }
}
