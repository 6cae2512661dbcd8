using System.CommandLine;
using System.Text;
using ServiceRules.Application.Assessing;
using ServiceRules.Cli.Printing;
using ServiceRules.Cli.Setup;
using ServiceRules.Formats.Json;
using ServiceRules.Reporting.Reports;
using ServiceRules.Reporting.Timestamping;
using ServiceRules.Reporting.Verifying;

namespace ServiceRules.Cli.Commands;

/// <summary><c>report FILE -o OUT.pdf</c>: judges a record and writes the signed report.</summary>
internal static class ReportCommand
{
    private static ReadOnlySpan<byte> ProofStart => "c2sp.org/tlog-proof@v1\n"u8;

    public static Command Of(Session session)
    {
        var file = new Argument<FileInfo>("FILE") { Description = "The service record." };
        var output = new Option<FileInfo>("--output", "-o")
        {
            Description = "The PDF to write.",
            Required = true,
            HelpName = "OUT.pdf",
        };
        var certificate = new Option<FileInfo?>("--certificate-out")
        {
            Description =
                "Also write the certificate alone (PEM), for whoever is to verify the report: they give it with --trust.",
            HelpName = "CERT.pem",
        };
        var command = new Command("report", "Judges a service record and writes the signed PDF report.")
        {
            file,
            output,
            certificate,
            RulesInForce.Option,
            TimestampAuthorities.Asked,
            LedgerPlace.Option,
            LedgerPlace.Checkpoints,
            LedgerPlace.AcceptMissing,
            LedgerPlace.BringBack,
            ReportFiling.Superseded,
        };
        foreach (var option in SigningKeys.All)
        {
            command.Options.Add(option);
        }
        command.SetAction(parsed =>
            RunOrSayWhyNot(
                parsed,
                parsed.GetRequiredValue(file),
                parsed.GetRequiredValue(output),
                parsed.GetValue(certificate),
                session
            )
        );
        return command;
    }

    private static int RunOrSayWhyNot(
        ParseResult parsed,
        FileInfo file,
        FileInfo output,
        FileInfo? certificate,
        Session session
    )
    {
        try
        {
            return Run(parsed, file, output, certificate, session);
        }
        catch (TimestampException refusal)
        {
            session.Error.WriteLine($"no report was written: {refusal.Message}");
            return ExitCode.Failed;
        }
    }

    private static int Run(
        ParseResult parsed,
        FileInfo file,
        FileInfo output,
        FileInfo? certificate,
        Session session
    )
    {
        CheckPlaces(file, output, certificate);
        if (parsed.GetValue(LedgerPlace.Option) is not null)
        {
            CheckProof(file, output, certificate);
        }

        using var authority = TimestampAuthorities.Open(parsed);
        var judging = RulesInForce.Judging(parsed);
        switch (judging.Assess(InputFile.ReadUpTo(file.FullName, ReadLimits.Record.Bytes)))
        {
            case AssessOutcome.Refused refused:
                ProblemPrint.Write(session.Error, file.ToString(), refused.Problems);
                return ExitCode.Unusable;
            case AssessOutcome.Judged { Assessed: var assessed }:
                CheckEarlier(output, assessed.Record.Id.Text);
                using (var key = SigningKeys.Open(parsed, session))
                using (var filing = ReportFiling.Open(parsed, session, file))
                {
                    var filed = ExitCode.Good;
                    var proofs = filing?.Begin(assessed, out filed);
                    if (filed != ExitCode.Good)
                    {
                        return filed;
                    }

                    var pdf = JobReport.Write(
                        assessed,
                        ReportTerms.Default,
                        key,
                        session.Clock.GetUtcNow(),
                        authority,
                        proofs
                    );
                    // On the disk before it is filed: a filed report that nobody has could not be made again.
                    using (var draft = DraftFile.Of(output.FullName, pdf))
                    {
                        var proof = filing?.End(assessed, pdf, out filed);
                        if (filed != ExitCode.Good)
                        {
                            return filed;
                        }

                        draft.Keep();
                        if (proof is not null)
                        {
                            InputFile.Write(ProofOf(output).FullName, proof);
                        }
                        else if (ProofOf(output).Exists)
                        {
                            session.Error.WriteLine(
                                $"`{ProofOf(output)}` is the proof of an earlier report, not of this one, which is not filed"
                            );
                        }
                    }

                    if (certificate is not null)
                    {
                        InputFile.Write(
                            certificate.FullName,
                            Encoding.ASCII.GetBytes(key.CertificatePem + "\n")
                        );
                    }
                }

                session.Tell(
                    $"{output}: signed report of {assessed.Record.Id}, {assessed.Assessment.Job.Disposition.ToString().ToLowerInvariant()}"
                );
                return ExitCode.Good;
            default:
                throw new InvalidOperationException("an unknown outcome of judging");
        }
    }

    /// <exception cref="InputException">What would be written must not be written there.</exception>
    private static void CheckPlaces(FileInfo file, FileInfo output, FileInfo? certificate)
    {
        FileInfo[] written = certificate is null ? [output] : [output, certificate];
        foreach (var target in written)
        {
            if (IsSame(file, target))
            {
                throw new InputException(
                    $"`{target}` is the record itself; accepted: another file to write to"
                );
            }

            if (Directory.Exists(target.FullName))
            {
                throw new InputException($"`{target}` is a folder; accepted: a file to write to");
            }

            InputFile.CheckFolder(target.FullName);
        }

        if (!HasEnding(output, ".pdf") && output.Exists)
        {
            throw new InputException(
                $"`{output}` is there and is no PDF; accepted: a file that ends in .pdf, or a new one"
            );
        }

        if (certificate is not null && IsSame(output, certificate))
        {
            throw new InputException(
                $"`{certificate}` is where the report itself is written; accepted: another file for the certificate"
            );
        }

        TrustedCertificates.CheckPlace(certificate);
    }

    /// <exception cref="InputException">A PDF of others, or the report of another record, is where it would be written.</exception>
    private static void CheckEarlier(FileInfo output, string record)
    {
        if (
            output.Exists
            && !EarlierReport.Is(InputFile.ReadUpTo(output.FullName, VerificationLimits.BytesMax), record)
        )
        {
            throw new InputException(
                $"`{output}` is there and is no report of `{record}` by this product; accepted: an earlier report of it to write "
                    + "over, or a new file"
            );
        }
    }

    /// <exception cref="InputException">Something else is where the report's proof would be written.</exception>
    private static void CheckProof(FileInfo file, FileInfo output, FileInfo? certificate)
    {
        var proof = ProofOf(output);
        if (
            Directory.Exists(proof.FullName)
            || IsSame(file, proof)
            || (certificate is not null && IsSame(certificate, proof))
            || (
                proof.Exists
                && !InputFile.ReadUpTo(proof.FullName, ProofStart.Length).AsSpan().StartsWith(ProofStart)
            )
        )
        {
            throw new InputException(
                $"`{proof}` is where the proof of the report is written, and is something else; accepted: an earlier proof, or nothing there"
            );
        }
    }

    private static FileInfo ProofOf(FileInfo output) => new(output.FullName + ReportFiling.ProofEnding);

    private static bool IsSame(FileInfo one, FileInfo other) =>
        string.Equals(one.FullName, other.FullName, StringComparison.Ordinal);

    private static bool HasEnding(FileInfo file, string ending) =>
        string.Equals(file.Extension, ending, StringComparison.OrdinalIgnoreCase);
}
