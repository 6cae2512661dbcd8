using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests;

/// <summary>Where files are read from and written to.</summary>
public sealed class PlacesTests : IDisposable
{
    private const string Good = "height-check";

    private readonly Product _product = new();

    public void Dispose() => _product.Dispose();

    /// <summary>Nobody ever writes into this pipe: whoever opens it waits for ever.</summary>
    [SkippableFact]
    public void Check_NamedPipe_IsRefusedAtOnce()
    {
        var pipe = _product.At("pipe");
        Assert.Equal(0, Tool.Require("mkfifo").Run(pipe).ExitCode);

        var outcome = _product.Run("check", pipe);

        Manners.HoldForRefusal(outcome);
        Assert.Contains("no regular file", outcome.StandardError, StringComparison.Ordinal);
    }

    [Fact]
    public void Check_PersonWhomNobodyListed_IsToldOnceWithHowOften()
    {
        var other = _product.Write(
            "other.json",
            Fixtures.Changed(Good, ("\"by\": \"tech-02\"", "\"by\": \"tech-99\""))
        );

        var outcome = _product.Run("check", other);

        Manners.HoldForRefusal(outcome);
        var problem = Assert.Single(outcome.Complaints);
        Assert.Contains("at /timeline/0/by", problem, StringComparison.Ordinal);
        Assert.Contains("it is named at 25 more places", problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Report_IntoAFolderThatIsNotThere_IsRefusedAndMakesNone()
    {
        var output = _product.At("no/such/folder/job.pdf");

        var outcome = _product.Run("report", Fixtures.PathOf(Good), "-o", output);

        Manners.HoldForRefusal(outcome);
        Assert.Contains("there is no folder", outcome.StandardError, StringComparison.Ordinal);
        Assert.False(Directory.Exists(_product.At("no")));
    }

    [Fact]
    public void Report_CertificateOverTheRecord_IsRefused()
    {
        var record = _product.Write("job.pem", Fixtures.Bytes(Good));

        var outcome = _product.Run(
            "report",
            record,
            "-o",
            _product.At("job.pdf"),
            "--certificate-out",
            record
        );

        Manners.HoldForRefusal(outcome);
        Assert.Equal(Fixtures.Bytes(Good), File.ReadAllBytes(record));
    }

    /// <summary>What ends in .pem need be no certificate: it may be somebody's only key.</summary>
    [Fact]
    public void Report_CertificateOverAKeyOrAChain_IsRefusedAndOverACertificateWritten()
    {
        var certificate = _product.At("certificate.pem");
        string[] report =
        [
            "report",
            Fixtures.PathOf(Good),
            "-o",
            _product.At("job.pdf"),
            "--certificate-out",
        ];
        Assert.Equal(0, _product.Run([.. report, certificate]).ExitCode);
        var alone = File.ReadAllText(certificate);
        var own = Directory
            .EnumerateFiles(_product.At("home"), "report-signing.pem", SearchOption.AllDirectories)
            .Single();
        var chain = _product.Write("chain.pem", Encoding.ASCII.GetBytes(alone + alone));
        foreach (var path in new[] { own, chain })
        {
            var before = File.ReadAllBytes(path);

            var outcome = _product.Run([.. report, path]);

            Manners.HoldForRefusal(outcome);
            Assert.Contains("is no certificate alone", outcome.StandardError, StringComparison.Ordinal);
            Assert.Equal(before, File.ReadAllBytes(path));
        }

        Manners.HoldForRefusal(_product.Run([.. report, _product.At("job.pdf")]));
        Assert.Equal(0, _product.Run([.. report, certificate]).ExitCode);
        Assert.Equal(alone, File.ReadAllText(certificate));
    }

    /// <summary>U+009B commands a terminal as escape and bracket do, and a certificate's name may hold it.</summary>
    [Fact]
    public void Verify_SignerWhoseNameCommandsATerminal_IsToldInLettersAlone()
    {
        var pdf = _product.At("job.pdf");
        var issued = _product.Run(
            "report",
            Fixtures.PathOf(Good),
            "-o",
            pdf,
            "--organisation",
            "Alder\u009b2J\u202eReach"
        );
        Assert.True(issued.ExitCode == 0, issued.ToString());

        var verified = _product.Run("verify", pdf);

        Assert.True(verified.ExitCode == 0, verified.ToString());
        Assert.Contains(@"Alder\u009b2J\u202eReach", verified.StandardOutput, StringComparison.Ordinal);
        Assert.DoesNotContain(verified.StandardOutput, symbol => symbol is '\u009b' or '\u202e');
    }

    [Fact]
    public void Verify_AsJson_TellsTheStandingAndThePointThatFailed()
    {
        using var elsewhere = new Product();
        var pdf = _product.At("job.pdf");
        Assert.Equal(0, _product.Run("report", Fixtures.PathOf(Good), "-o", pdf).ExitCode);
        var carried = elsewhere.Write("job.pdf", File.ReadAllBytes(pdf));

        var there = elsewhere.Run("verify", carried, "--format", "json");
        var here = _product.Run("verify", pdf, "--format", "json");

        Assert.Equal((1, 0), (there.ExitCode, here.ExitCode));
        var told = JsonNode.Parse(there.StandardOutput)!;
        Assert.Equal("signer-not-trusted", told["standing"]!.GetValue<string>());
        Assert.Equal(
            ["trust"],
            told["points"]!
                .AsArray()
                .Where(point => point!["result"]!.GetValue<string>() == "failed")
                .Select(point => point!["name"]!.GetValue<string>())
        );
        Assert.Equal("genuine", JsonNode.Parse(here.StandardOutput)!["standing"]!.GetValue<string>());
    }
}
