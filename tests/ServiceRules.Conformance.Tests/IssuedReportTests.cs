using System.Security.Cryptography;
using System.Text;
using ServiceRules.Evidence;
using ServiceRules.TestKit;

namespace ServiceRules.Conformance.Tests;

/// <summary>A report out of the command line, looked at by ordinary tools: poppler, qpdf and OpenSSL.</summary>
public sealed class IssuedReportTests(IssuedReport report) : IClassFixture<IssuedReport>
{
    private static readonly string[] Attached =
    [
        "assessment.json",
        "context.json",
        "record.json",
        "rules.json",
    ];

    [Fact]
    public void Report_SoundRecord_IsIssuedAndNamesItsOutcome()
    {
        Assert.True(report.Issued.ExitCode == 0, report.Issued.ToString());
        Assert.Contains(
            "signed report of F-full-service-125, release",
            report.Issued.StandardOutput,
            StringComparison.Ordinal
        );
    }

    [SkippableFact]
    public void Pdfsig_Report_FindsAValidSignatureOverTheTotalDocument()
    {
        var said = Tool.Require("pdfsig").Run(report.Pdf).StandardOutput;

        Assert.Contains("Signature is Valid.", said, StringComparison.Ordinal);
        Assert.Contains("Total document signed", said, StringComparison.Ordinal);
        Assert.DoesNotContain("Signature #2", said, StringComparison.Ordinal);
    }

    [SkippableFact]
    public void Qpdf_Report_FindsNothingToComplainOf()
    {
        var said = Tool.Require("qpdf").Run("--check", report.Pdf);

        Assert.True(said.ExitCode == 0, said.ToString());
    }

    [SkippableFact]
    public void Pdfdetach_Report_GivesTheFourDocumentsInCanonicalForm()
    {
        var saved = Detach();

        Assert.Equal(Attached, saved.Keys.Order(StringComparer.Ordinal));
        Assert.All(saved.Values, bytes => Assert.Equal(Canonical(bytes), bytes));
        Assert.Equal(Canonical(File.ReadAllBytes(report.Record)), saved["record.json"]);
        Assert.Equal(
            report.Judged.StandardOutput.TrimEnd(),
            Encoding.UTF8.GetString(saved["assessment.json"])
        );
    }

    [SkippableFact]
    public void Pdftotext_Report_ShowsTheOutcomeAndTheDigestOfEachDocument()
    {
        var pages = Tool.Require("pdftotext").Run("-layout", report.Pdf, "-").StandardOutput;

        Assert.Contains("May go out", pages, StringComparison.Ordinal);
        Assert.All(
            Detach(),
            document =>
                Assert.Matches(
                    $@"{document.Key}\s+sha256:{Convert.ToHexStringLower(SHA256.HashData(document.Value))}",
                    pages
                )
        );
    }

    [SkippableFact]
    public void Openssl_CertificateHandedOver_IsReadAndHoldsNoPrivateKey()
    {
        var said = Tool.Require("openssl").Run("x509", "-in", report.Certificate, "-noout", "-subject");

        Assert.True(said.ExitCode == 0, said.ToString());
        Assert.DoesNotContain("PRIVATE", File.ReadAllText(report.Certificate), StringComparison.Ordinal);
    }

    private SortedDictionary<string, byte[]> Detach()
    {
        var folder = Directory.CreateDirectory(report.Shop.At("detached")).FullName;
        var said = Tool.Require("pdfdetach").Run("-saveall", "-o", folder, report.Pdf);
        Assert.True(said.ExitCode == 0, said.ToString());
        return new(
            Directory.GetFiles(folder).ToDictionary(file => Path.GetFileName(file)!, File.ReadAllBytes),
            StringComparer.Ordinal
        );
    }

    private static byte[] Canonical(byte[] json)
    {
        Assert.True(CanonicalJson.Canonicalise(json).TryGet(out var document, out _));
        return document.Bytes.ToArray();
    }
}
