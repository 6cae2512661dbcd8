using System.Text;
using System.Text.RegularExpressions;
using ServiceRules.TestKit;

namespace ServiceRules.Conformance.Tests;

/// <summary>
/// The page for strangers, typed in as it stands: one shell, in a folder with nothing but a report and the certificate.
/// What the page says must be said is said, in that order.
/// </summary>
public sealed partial class VerificationPageTests(VerificationPageTests.FiledReport report)
    : IClassFixture<VerificationPageTests.FiledReport>
{
    private static readonly string[] Tools =
    [
        "sh",
        "pdfsig",
        "pdfdetach",
        "pdftotext",
        "qpdf",
        "openssl",
        "sha256sum",
        "base64",
        "xxd",
        "grep",
        "sed",
    ];

    private static readonly string Page = File.ReadAllText(
        ReferenceFiles.InRepository("docs", "verification.md")
    );

    [SkippableFact]
    public void Page_EveryCommand_SaysWhatThePageShows()
    {
        foreach (var tool in Tools)
        {
            _ = Tool.Require(tool);
        }
        var folder = Stranger("all");

        var said = new ShellSession(folder).Type(Script());

        Assert.True(said.ExitCode == 0, said.ToString());
        AssertShown(said);
    }

    /// <summary>That the steps can tell a forgery: one that ordinary readers take for valid.</summary>
    [SkippableFact]
    public void Page_FileAddedToAfterSigning_StopsAtAStep()
    {
        foreach (var tool in Tools)
        {
            _ = Tool.Require(tool);
        }
        var folder = Stranger("added");
        File.AppendAllText(Path.Combine(folder, "report.pdf"), "% one more line\n");

        var said = new ShellSession(folder).Type(Script());

        Assert.True(said.ExitCode != 0, said.ToString());
        Assert.DoesNotContain("signed to the end", said.StandardOutput, StringComparison.Ordinal);
    }

    /// <summary>A certificate that an authority issued for signing documents, and nobody was given the root.</summary>
    [SkippableFact]
    public void Page_CertificateOfAnAuthority_SaysWhatThePageShows()
    {
        foreach (var tool in Tools)
        {
            _ = Tool.Require(tool);
        }
        using var issued = new IssuedKey(report.Shop);
        var pdf = report.Shop.At("issued.pdf");
        var written = report.Shop.Run([
            "report",
            FiledReport.Record("height-check"),
            "-o",
            pdf,
            "--ledger",
            report.Shop.At("ledger"),
            .. issued.Options,
        ]);
        Assert.True(written.ExitCode == 0, written.ToString());
        var folder = Stranger("issued", pdf, issued.Certificate);

        var said = new ShellSession(folder).Type(Script());

        Assert.True(said.ExitCode == 0, said.ToString());
        AssertShown(said);
    }

    /// <summary>The commands of the page about keys, after those that cut the signature out.</summary>
    [SkippableFact]
    public void KeysPage_TimestampCommands_VerifyTheToken()
    {
        foreach (var tool in Tools)
        {
            _ = Tool.Require(tool);
        }
        using var desk = new StampingDesk();
        using var counter = StampingCounter.Of(desk.Answer);
        var pdf = report.Shop.At("stamped.pdf");
        var written = report.Shop.Run([
            "report",
            FiledReport.Record("full-service-125"),
            "-o",
            pdf,
            "--ledger",
            report.Shop.At("ledger"),
            "--tsa",
            counter.Address,
        ]);
        Assert.True(written.ExitCode == 0, written.ToString());
        var folder = Stranger("stamped", pdf, report.Certificate);
        File.WriteAllText(Path.Combine(folder, "tsa-root.pem"), desk.Root.Certificate.ExportCertificatePem());
        var keys = File.ReadAllText(ReferenceFiles.InRepository("docs", "keys.md"));
        var stamping = Blocks(keys)
            .Single(block => block.Content.Contains("openssl ts", StringComparison.Ordinal));
        var cutting = string.Concat(
            Blocks(Page).Where(block => block.Kind == "sh").Take(3).Select(block => block.Content)
        );

        var said = new ShellSession(folder).Type(cutting + stamping.Content);

        Assert.True(said.ExitCode == 0, said.ToString());
        Assert.Contains("Verification: OK", said.ToString(), StringComparison.Ordinal);
        Assert.Contains("Time stamp:", said.StandardOutput, StringComparison.Ordinal);
    }

    [Fact]
    public void Page_Commands_AreThere()
    {
        Assert.Contains("openssl cms -verify -cades", Script(), StringComparison.Ordinal);
        Assert.Contains("servicerules verify", Script(), StringComparison.Ordinal);
    }

    private string Stranger(string name) => Stranger(name, report.Pdf, report.Certificate);

    private string Stranger(string name, string pdf, string certificate)
    {
        var folder = Directory.CreateDirectory(report.Shop.At(name)).FullName;
        File.Copy(pdf, Path.Combine(folder, "report.pdf"));
        File.Copy(pdf + ".proof", Path.Combine(folder, "report.pdf.proof"));
        File.Copy(certificate, Path.Combine(folder, "organisation.pem"));
        return folder;
    }

    private static string Script() =>
        Blocks()
            .Where(block => block.Kind == "sh")
            .Aggregate(new StringBuilder(), (script, block) => script.Append(block.Content))
            .ToString();

    private static void AssertShown(ToolOutcome said)
    {
        var everything = said.StandardOutput + said.StandardError;
        foreach (
            var line in Blocks()
                .Where(block => block.Kind == "text")
                .SelectMany(block => block.Content.Split('\n', StringSplitOptions.RemoveEmptyEntries))
        )
        {
            Assert.Contains(line, everything, StringComparison.Ordinal);
        }
    }

    private static IEnumerable<(string Kind, string Content)> Blocks() => Blocks(Page);

    private static IEnumerable<(string Kind, string Content)> Blocks(string page) =>
        Fence().Matches(page).Select(match => (match.Groups[1].Value, match.Groups[2].Value));

    [GeneratedRegex("^```([a-z]+)\n(.*?)^```", RegexOptions.Multiline | RegexOptions.Singleline)]
    private static partial Regex Fence();

    /// <summary>A report as the command line issues and files it.</summary>
    public sealed class FiledReport : IDisposable
    {
        public FiledReport()
        {
            Pdf = Shop.At("job.pdf");
            Certificate = Shop.At("certificate.pem");
            // Others before it, so that there is a way from the entry to the root.
            foreach (
                var (job, output) in (ReadOnlySpan<(string, string)>)
                    [("grind-125", Shop.At("earlier.pdf")), ("full-service-125", Pdf)]
            )
            {
                var issued = Shop.Run(
                    "report",
                    Record(job),
                    "-o",
                    output,
                    "--certificate-out",
                    Certificate,
                    "--ledger",
                    Shop.At("ledger")
                );
                Assert.True(issued.ExitCode == 0, issued.ToString());
            }
        }

        public static string Record(string job) =>
            ReferenceFiles.InRepository("rules", "base", "fixtures", job + ".record.json");

        public Product Shop { get; } = new();

        public string Pdf { get; }

        public string Certificate { get; }

        public void Dispose() => Shop.Dispose();
    }
}
