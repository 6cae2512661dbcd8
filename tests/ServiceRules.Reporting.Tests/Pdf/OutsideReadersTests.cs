using System.Text;
using ServiceRules.Reporting.Layout;
using ServiceRules.TestKit;

namespace ServiceRules.Reporting.Tests.Pdf;

/// <summary>What ordinary tools that know nothing of this product make of a signed report.</summary>
public sealed class OutsideReadersTests : IDisposable
{
    private const string Record = """{"id":"job-7","note":"%%EOF startxref (\\) endstream"}""";

    private readonly Scratch _scratch = new();
    private readonly string _report;

    public OutsideReadersTests()
    {
        _report = _scratch.Write(
            "report.pdf",
            SampleReport.Bytes(
                SampleReport.Json("record.json", Record),
                SampleReport.Json("context.json", "{}")
            )
        );
    }

    public void Dispose() => _scratch.Dispose();

    [SkippableFact]
    public void Pdfsig_Report_FindsOneValidSignatureOverTheTotalDocument()
    {
        var said = Tool.Require("pdfsig").Run(_report).StandardOutput;

        Assert.Contains("Signature is Valid.", said, StringComparison.Ordinal);
        Assert.Contains("Total document signed", said, StringComparison.Ordinal);
        Assert.Contains("Signature Type: ETSI.CAdES.detached", said, StringComparison.Ordinal);
        Assert.Contains("Signing Time: Mar 02 2026 06:45:10", said, StringComparison.Ordinal);
        Assert.DoesNotContain("Signature #2", said, StringComparison.Ordinal);
    }

    [SkippableFact]
    public void Qpdf_Report_FindsNothingToComplainOf()
    {
        var said = Tool.Require("qpdf").Run("--check", _report);

        Assert.True(said.ExitCode == 0, said.ToString());
    }

    [SkippableFact]
    public void Pdfdetach_Report_SavesTheAttachedBytes()
    {
        var detach = Tool.Require("pdfdetach");

        var list = detach.Run("-list", _report).StandardOutput;
        var saved = _scratch.At("saved.json");
        _ = detach.Run("-savefile", "record.json", "-o", saved, _report);

        Assert.Equal("2 embedded files\n1: context.json\n2: record.json\n", list);
        Assert.Equal(Record, File.ReadAllText(saved));
    }

    [SkippableFact]
    public void Pdftotext_Report_ExtractsTheWords()
    {
        var said = Tool.Require("pdftotext").Run("-layout", _report, "-").StandardOutput;

        Assert.Contains("Unit 3 may go out", said, StringComparison.Ordinal);
        Assert.Contains(
            "Gap left 0.025 mm ≤ 0.050 mm ± 0.004 mm, µ and − too",
            said,
            StringComparison.Ordinal
        );
        Assert.Contains("page 1 of 1", said, StringComparison.Ordinal);
    }

    [SkippableFact]
    public void Pdffonts_Report_HasEveryFontEmbeddedAsSubsetWithItsTextMap()
    {
        var rows = Tool.Require("pdffonts").Run(_report).StandardOutput.TrimEnd().Split('\n')[2..];

        Assert.NotEmpty(rows);
        Assert.All(rows, row => Assert.Contains(" yes yes yes ", row, StringComparison.Ordinal));
    }

    [SkippableFact]
    public void Pdfinfo_Report_TellsTitleLanguageAndStructure()
    {
        var pdfinfo = Tool.Require("pdfinfo");

        var facts = pdfinfo.Run(_report).StandardOutput;
        var structure = pdfinfo.Run("-struct-text", _report).StandardOutput;

        Assert.Contains("Job (A and B)", facts, StringComparison.Ordinal);
        Assert.Matches(@"Tagged:\s+yes", facts);
        Assert.Matches(@"H1 \(block\)\s+""Unit 3 may go out""", structure);
        Assert.Matches(@"TH[^""]+P \(block\)\s+""station""", structure);
        Assert.Contains("Figure", structure, StringComparison.Ordinal);
        Assert.DoesNotContain("page 1 of 1", structure, StringComparison.Ordinal);
    }

    [SkippableFact]
    public void Pdftotext_LongTextInEveryCharacterTheFontHas_ComesBackWhole()
    {
        var text = new StringBuilder();
        for (var symbol = '!'; symbol < 0x500; symbol++)
        {
            text.Append(symbol).Append(symbol % 16 == 0 ? ' ' : symbol);
        }
        var shown = VisibleText.Of(text.ToString(), Face.Text, Reporting.Pdf.FontMeasure.Shipped);
        var content = new Stack([
            new Paragraph(text.ToString(), SampleReport.Body),
            new SignaturePlace(new Paragraph("signed", SampleReport.Body)),
        ]);
        var report = _scratch.Write("long.pdf", SampleReport.Bytes(content));

        var said = Tool.Require("pdftotext").Run("-raw", report, "-").StandardOutput;

        Assert.Contains(Layout.Printable.Of(shown), Layout.Printable.Of(said), StringComparison.Ordinal);
    }
}
