using System.Text.RegularExpressions;
using ServiceRules.Reporting.Layout;
using ServiceRules.Reporting.Pdf;
using ServiceRules.Reporting.Signing;
using ServiceRules.Reporting.Tests.Signing;
using ServiceRules.Reporting.Verifying;
using ServiceRules.TestKit;

namespace ServiceRules.Reporting.Tests.Verifying;

/// <summary>
/// A report whose certificate has ended since: the page for strangers, typed in as it stands, and our own answer.
/// </summary>
public sealed partial class EndedCertificateTests : IDisposable
{
    private static readonly DateTimeOffset Made = new(2012, 3, 2, 7, 45, 10, TimeSpan.Zero);

    private readonly Scratch _scratch = new();

    public void Dispose() => _scratch.Dispose();

    /// <summary>The commands of the page that hold the word.</summary>
    private static string Block(string word) =>
        Fence()
            .Matches(File.ReadAllText(ReferenceFiles.InRepository("docs", "verification.md")))
            .Select(match => match.Groups[1].Value)
            .First(block => block.Contains(word, StringComparison.Ordinal));

    private void Write()
    {
        using var certificate = SigningKeyMaking.SelfSigned("Alder Reach Parks Trust", Made);
        Assert.True(certificate.NotAfter < TimeProvider.System.GetUtcNow(), "it has not ended yet");
        var report = PdfReportWriter.Write(
            Pagination.LayOut(
                new SignaturePlace(new Paragraph("signed", SampleReport.Body)),
                SampleReport.Design(),
                FontMeasure.Shipped
            ),
            new DocumentTitle("Job", "Service report", "en-GB", Made.AddYears(1)),
            [SampleReport.Json("record.json", "{}")],
            RemoteSigner.Of(certificate)
        );
        _ = _scratch.Write("report.pdf", report);
        File.WriteAllText(_scratch.At("organisation.pem"), certificate.ExportCertificatePem() + "\n");
        var verified = PdfVerification.Verify(
            report,
            VerificationGrounds.Of([certificate]) with
            {
                CheckedAt = TimeProvider.System.GetUtcNow(),
            }
        );
        Assert.True(verified.IsGenuine, string.Join('\n', verified.Points));
    }

    [SkippableFact]
    public void Page_CertificateThatHasEnded_IsRefusedTodayAndTakenAsOfTheStatedTime()
    {
        foreach (var tool in (string[])["sh", "openssl", "xxd", "date"])
        {
            _ = Tool.Require(tool);
        }
        Write();
        var cut = $"cd '{_scratch.Folder}'\n" + Block("set -- $(tr -cd") + Block("signature-padded.der");
        var shell = Tool.Require("sh");

        var today = shell.Run("-e", "-c", cut + Block("cmp signed-bytes verified-bytes"));
        var then = shell.Run("-e", "-c", cut + Block("-attime"));

        Assert.True(today.ExitCode != 0, today.ToString());
        Assert.Contains("certificate has expired", today.StandardError, StringComparison.Ordinal);
        Assert.True(then.ExitCode == 0, then.ToString());
        Assert.Contains("stated 2013-03-02 07:45:10 UTC", then.StandardOutput, StringComparison.Ordinal);
        Assert.Contains("CAdES Verification successful", then.StandardError, StringComparison.Ordinal);
    }

    [GeneratedRegex("^```sh\n(.*?)^```", RegexOptions.Multiline | RegexOptions.Singleline)]
    private static partial Regex Fence();
}
