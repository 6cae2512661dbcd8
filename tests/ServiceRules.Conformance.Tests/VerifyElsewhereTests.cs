using ServiceRules.TestKit;

namespace ServiceRules.Conformance.Tests;

/// <summary>Verifying where nothing is but the file, the certificate and the tool.</summary>
public sealed class VerifyElsewhereTests(IssuedReport report) : IClassFixture<IssuedReport>, IDisposable
{
    private const string Reproduced = "verdict-reproduced";

    private readonly Product _elsewhere = new();

    public void Dispose() => _elsewhere.Dispose();

    [Fact]
    public void Verify_OnTheMachineThatSigned_IsGenuine()
    {
        var outcome = report.Shop.Run("verify", report.Pdf);

        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.Contains("job.pdf: GENUINE", outcome.StandardOutput, StringComparison.Ordinal);
    }

    [Fact]
    public void Verify_ElsewhereWithoutTrust_IsIntactButNotGenuine()
    {
        var outcome = _elsewhere.Run("verify", Carried());

        Assert.True(outcome.ExitCode == 1, outcome.ToString());
        Assert.Contains("INTACT, SIGNER NOT TRUSTED", outcome.StandardOutput, StringComparison.Ordinal);
        Assert.DoesNotContain("GENUINE", outcome.StandardOutput, StringComparison.Ordinal);
        Assert.Equal(["trust"], Points(outcome, "FAILED"));
        Assert.Contains(Reproduced, Points(outcome, "ok"));
    }

    [Fact]
    public void Verify_ElsewhereWithTheCertificate_IsGenuineAndReproducesTheVerdict()
    {
        var certificate = _elsewhere.Write("certificate.pem", File.ReadAllBytes(report.Certificate));

        var outcome = _elsewhere.Run("verify", Carried(), "--trust", certificate);

        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.Empty(Points(outcome, "FAILED"));
        Assert.Empty(Points(outcome, "not looked"));
        Assert.Contains(Reproduced, Points(outcome, "ok"));
    }

    [Theory]
    [InlineData(0.001)]
    [InlineData(0.25)]
    [InlineData(0.5)]
    [InlineData(0.82)]
    [InlineData(0.9)]
    [InlineData(0.9999)]
    public void Verify_OneBitChanged_IsNotGenuine(double share)
    {
        var bytes = File.ReadAllBytes(report.Pdf);
        bytes[(int)(share * bytes.Length)] ^= 0x01;

        var outcome = report.Shop.Run("verify", _elsewhere.Write("changed.pdf", bytes));

        Assert.True(outcome.ExitCode == 1, outcome.ToString());
        Assert.Contains("NOT GENUINE", outcome.StandardOutput, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("nothing")]
    [InlineData("a record")]
    [InlineData("its second half")]
    public void Verify_WhatIsNoReport_IsUnreadable(string what)
    {
        var whole = File.ReadAllBytes(report.Pdf);
        byte[] content = what switch
        {
            "nothing" => [],
            "a record" => File.ReadAllBytes(report.Record),
            _ => whole[(whole.Length / 2)..],
        };

        var outcome = _elsewhere.Run("verify", _elsewhere.Write("file.pdf", content));

        Assert.True(outcome.ExitCode == 2, outcome.ToString());
        Assert.DoesNotContain("   at ", outcome.StandardError, StringComparison.Ordinal);
    }

    [Fact]
    public void Verify_OnlyTheFirstHalf_IsNotGenuine()
    {
        var whole = File.ReadAllBytes(report.Pdf);

        var outcome = report.Shop.Run("verify", _elsewhere.Write("half.pdf", whole[..(whole.Length / 2)]));

        Assert.True(outcome.ExitCode == 1, outcome.ToString());
    }

    private string Carried() => _elsewhere.Write("job.pdf", File.ReadAllBytes(report.Pdf));

    private static IReadOnlyList<string> Points(ProductOutcome outcome, string mark) =>
        [
            .. outcome
                .StandardOutput.Split('\n')
                .Select(line => line.Trim())
                .Where(line => line.StartsWith(mark + " ", StringComparison.Ordinal))
                .Select(line => line[mark.Length..].Trim().Split(':')[0]),
        ];
}
