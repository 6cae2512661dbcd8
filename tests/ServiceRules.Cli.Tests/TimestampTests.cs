using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests;

/// <summary>Reports that an authority stamps.</summary>
public sealed class TimestampTests : IDisposable
{
    private readonly Product _product = new();

    public void Dispose() => _product.Dispose();

    private string Pdf => _product.At("job.pdf");

    private ProductOutcome Report(string address) =>
        _product.Run("report", Fixtures.PathOf("height-check"), "-o", Pdf, "--tsa", address);

    [SkippableFact]
    public void Report_StampedByAnAuthority_IsGenuineForWhoeverTrustsIt()
    {
        using var desk = new StampingDesk();
        using var counter = StampingCounter.Of(desk.Answer);
        var root = _product.Write(
            "root.pem",
            Encoding.ASCII.GetBytes(desk.Root.Certificate.ExportCertificatePem())
        );

        var reported = Report(counter.Address);
        var trusting = _product.Run("verify", Pdf, "--trust-tsa", root, "--format", "json");
        var others = _product.Run("verify", Pdf);

        Assert.True(reported.ExitCode == 0, reported.ToString());
        Assert.True(trusting.ExitCode == 0, trusting.ToString());
        var told = JsonNode.Parse(trusting.StandardOutput)!;
        Assert.Equal("genuine", told["standing"]!.GetValue<string>());
        Assert.NotNull(told["provenTime"]);
        Assert.Equal(1, others.ExitCode);
        Assert.Contains(
            "not known   timestamp: signed at or before",
            others.StandardOutput,
            StringComparison.Ordinal
        );
        Assert.Contains("--trust-tsa", others.StandardOutput, StringComparison.Ordinal);
        Assert.DoesNotContain("FAILED", others.StandardOutput, StringComparison.Ordinal);
    }

    [Fact]
    public void Report_AuthorityThatDoesNotStamp_WritesNoReport()
    {
        using var counter = StampingCounter.Of(_ => [0x30, 0x05, 0x30, 0x03, 0x02, 0x01, 0x02]);

        var outcome = Report(counter.Address);

        Assert.Equal(3, outcome.ExitCode);
        Assert.Empty(outcome.StandardOutput);
        Assert.Contains(
            "no report was written: no time-stamp of 127.0.0.1:",
            outcome.StandardError,
            StringComparison.Ordinal
        );
        Assert.True(Manners.IsFreeOfStackTraces(outcome), outcome.ToString());
        Assert.False(File.Exists(Pdf));
    }

    [Fact]
    public void Report_AddressThatAnybodyBetweenCouldAnswer_IsRefused()
    {
        var outcome = Report("http://tsa.example/");

        Manners.HoldForRefusal(outcome);
        Assert.Contains("accepted: https://", outcome.StandardError, StringComparison.Ordinal);
    }
}
