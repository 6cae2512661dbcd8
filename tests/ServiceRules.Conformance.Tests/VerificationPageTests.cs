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

    [Fact]
    public void Page_Commands_AreThere()
    {
        Assert.Contains("openssl cms -verify -cades", Script(), StringComparison.Ordinal);
        Assert.Contains("servicerules verify", Script(), StringComparison.Ordinal);
    }

    private string Stranger(string name)
    {
        var folder = Directory.CreateDirectory(report.Shop.At(name)).FullName;
        File.Copy(report.Pdf, Path.Combine(folder, "report.pdf"));
        File.Copy(report.Pdf + ".proof", Path.Combine(folder, "report.pdf.proof"));
        File.Copy(report.Certificate, Path.Combine(folder, "organisation.pem"));
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

    private static IEnumerable<(string Kind, string Content)> Blocks() =>
        Fence().Matches(Page).Select(match => (match.Groups[1].Value, match.Groups[2].Value));

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
            foreach (var job in (string[])["grind-125", "full-service-125"])
            {
                var record = ReferenceFiles.InRepository("rules", "base", "fixtures", job + ".record.json");
                var issued = Shop.Run(
                    "report",
                    record,
                    "-o",
                    Pdf,
                    "--certificate-out",
                    Certificate,
                    "--ledger",
                    Shop.At("ledger")
                );
                Assert.True(issued.ExitCode == 0, issued.ToString());
            }
        }

        public Product Shop { get; } = new();

        public string Pdf { get; }

        public string Certificate { get; }

        public void Dispose() => Shop.Dispose();
    }
}
