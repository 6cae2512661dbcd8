using ServiceRules.Reporting.Verifying;
using ServiceRules.TestKit;

namespace ServiceRules.Reporting.Tests.Verifying;

/// <summary>Every case of the tamper matrix, against the verdict it requires.</summary>
public class TamperMatrixTests
{
    private static readonly byte[] Report = SampleReport.Bytes(SampleReport.Json("record.json", "{\"a\":1}"));

    public static TheoryData<string, string> Cases()
    {
        var cases = new TheoryData<string, string>();
        foreach (var row in ReferenceFiles.ReadRows("evidence", "pdf", "tamper-matrix.csv").Skip(1))
        {
            // The recipe may hold commas inside quotes; name and verdict never do.
            var name = row[..row.IndexOf(',', StringComparison.Ordinal)];
            cases.Add(name, row.Contains(",valid,", StringComparison.Ordinal) ? "valid" : "reject");
        }
        return cases;
    }

    [Theory]
    [MemberData(nameof(Cases))]
    public void Verify_Case_GetsTheRequiredVerdict(string name, string required)
    {
        var tampered = Tampering.Apply(name, Report);

        var verified = PdfVerification.Verify(
            tampered,
            VerificationGrounds.Of([SampleReport.Key.Certificate])
        );

        // Rewriting only the case of hex digits changes no meaning, and the matrix calls the signature valid. We ask
        // for the very bytes that were issued, so the changed file is refused like every other.
        var expected = required == "valid" && !name.StartsWith("31", StringComparison.Ordinal);
        Assert.Equal(expected, verified.IsGenuine);
        Assert.Equal(expected ? 1 : 0, verified.Attachments.Count);
        Assert.Equal(expected, tampered.AsSpan().SequenceEqual(Report));
    }

    /// <summary>
    /// That the recipes really carry out their attacks: an ordinary reader is taken in as the matrix records.
    /// </summary>
    [SkippableTheory]
    [InlineData("03", "Signature is Valid.", "Not total document signed", "{\"a\":1}")]
    [InlineData("05", "Signature is Valid.", "Not total document signed", "{\"a\":1}")]
    [InlineData("07", "Signature is Valid.", "Not total document signed", "{\"a\":1}")]
    [InlineData("09", "Signature is Valid.", "Not total document signed", "{\"a\":1}")]
    [InlineData("10", "Signature is Valid.", "Not total document signed", "{\"a\":666}")]
    [InlineData("27", "Signature is Valid.", "Not total document signed", "{\"a\":666}")]
    [InlineData("28", "Signature is Valid.", "Not total document signed", "{\"a\":1}")]
    [InlineData("30", "Digest Mismatch.", "Not total document signed", "{\"a\":1}")]
    [InlineData("31", "Signature is Valid.", "Total document signed", "{\"a\":1}")]
    public void Pdfsig_Case_IsTakenInAsRecorded(string name, string validation, string cover, string evidence)
    {
        using var scratch = new Scratch();
        var path = scratch.Write("tampered.pdf", Tampering.Apply(name, Report));

        var said = Tool.Require("pdfsig").Run(path).StandardOutput;
        var saved = scratch.At("saved.json");
        _ = Tool.Require("pdfdetach").Run("-savefile", "record.json", "-o", saved, path);

        Assert.Contains(validation, said, StringComparison.Ordinal);
        Assert.Contains(cover, said, StringComparison.Ordinal);
        Assert.Equal(evidence, File.ReadAllText(saved));
    }

    [Fact]
    public void Cases_OfTheMatrix_AreAllThere() => Assert.Equal(32, Cases().Count);
}
