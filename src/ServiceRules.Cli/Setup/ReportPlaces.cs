using System.CommandLine;
using ServiceRules.Reporting.Reports;
using ServiceRules.Reporting.Verifying;

namespace ServiceRules.Cli.Setup;

/// <summary>Where a report and what goes with it are written, and that nothing else is there.</summary>
internal static class ReportPlaces
{
    private static ReadOnlySpan<byte> ProofStart => "c2sp.org/tlog-proof@v1\n"u8;

    public static Option<FileInfo> Output { get; } =
        new("--output", "-o")
        {
            Description = "The PDF to write.",
            Required = true,
            HelpName = "OUT.pdf",
        };

    public static Option<FileInfo?> Certificate { get; } =
        new("--certificate-out")
        {
            Description =
                "Also write the certificate alone (PEM), for whoever is to verify the report: they give it with --trust.",
            HelpName = "CERT.pem",
        };

    /// <exception cref="InputException">What would be written must not be written there.</exception>
    public static void Check(IReadOnlyCollection<string> inputs, FileInfo output, FileInfo? certificate)
    {
        FileInfo[] written = certificate is null ? [output] : [output, certificate];
        foreach (var target in written)
        {
            if (inputs.Any(input => IsSame(input, target)))
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

        if (certificate is not null && IsSame(output.FullName, certificate))
        {
            throw new InputException(
                $"`{certificate}` is where the report itself is written; accepted: another file for the certificate"
            );
        }

        TrustedCertificates.CheckPlace(certificate);
    }

    /// <exception cref="InputException">A PDF of others, or another report, is where it would be written.</exception>
    public static void CheckEarlier(FileInfo output, string title)
    {
        if (
            output.Exists
            && !EarlierReport.Is(InputFile.ReadUpTo(output.FullName, VerificationLimits.BytesMax), title)
        )
        {
            throw new InputException(
                $"`{output}` is there and is no `{title}` by this product; accepted: an earlier one of these to write over, or a "
                    + "new file"
            );
        }
    }

    /// <exception cref="InputException">Something else is where the report's proof would be written.</exception>
    public static void CheckProof(IReadOnlyCollection<string> inputs, FileInfo output, FileInfo? certificate)
    {
        var proof = ProofOf(output);
        if (
            Directory.Exists(proof.FullName)
            || inputs.Any(input => IsSame(input, proof))
            || (certificate is not null && IsSame(certificate.FullName, proof))
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

    public static FileInfo ProofOf(FileInfo output) => new(output.FullName + ReportFiling.ProofEnding);

    private static bool IsSame(string one, FileInfo other) =>
        string.Equals(Path.GetFullPath(one), other.FullName, StringComparison.Ordinal);

    private static bool HasEnding(FileInfo file, string ending) =>
        string.Equals(file.Extension, ending, StringComparison.OrdinalIgnoreCase);
}
