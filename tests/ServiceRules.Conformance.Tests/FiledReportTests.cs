using System.Text;
using ServiceRules.TestKit;

namespace ServiceRules.Conformance.Tests;

/// <summary>What the command line says of a filed report, of what stands beside it, and of what was asked for.</summary>
public sealed class FiledReportTests(VerificationPageTests.FiledReport report)
    : IClassFixture<VerificationPageTests.FiledReport>
{
    private ProductOutcome Verify(params string[] arguments) =>
        report.Shop.Run(["verify", report.Pdf, .. arguments]);

    private string Told(string name, params string[] arguments)
    {
        var path = report.Shop.At(name);
        var outcome = report.Shop.Run([
            "ledger",
            .. arguments,
            "-o",
            path,
            "--ledger",
            report.Shop.At("ledger"),
        ]);
        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        return path;
    }

    [Fact]
    public void Verify_EverythingBesideTheReport_IsGenuine()
    {
        var key = report.Shop.Write(
            "log-key.pem",
            Encoding.UTF8.GetBytes(
                report.Shop.Run("ledger", "key", "--ledger", report.Shop.At("ledger")).StandardOutput
            )
        );

        var outcome = Verify("--require", "log", "--log-key", key, "--proof", report.Pdf + ".proof");

        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.Contains("as given; this file is entry", outcome.StandardOutput, StringComparison.Ordinal);
    }

    [Fact]
    public void Verify_LaterCheckpoint_NeedsTheProofOfGrowth()
    {
        var checkpoint = Told("checkpoint", "checkpoint");
        // The report tells the size that its proofs lead to: everything but itself was filed then.
        var size = int.Parse(
            File.ReadAllLines(checkpoint)[1],
            System.Globalization.CultureInfo.InvariantCulture
        );
        var growth = Told("growth", "checkpoint", "--growth-from", $"{size - 1}");

        var without = Verify("--checkpoint", checkpoint);
        var with = Verify("--checkpoint", checkpoint, "--growth", growth);

        Assert.Equal(1, without.ExitCode);
        Assert.Contains("INTACT, NOT ALL ESTABLISHED", without.StandardOutput, StringComparison.Ordinal);
        Assert.Contains(
            $"ledger checkpoint --growth-from {size - 1}",
            Unwrapped(without.StandardOutput),
            StringComparison.Ordinal
        );
        Assert.True(with.ExitCode == 0, with.ToString());
    }

    [Fact]
    public void Verify_TimestampRequired_NotThere_IsNotGenuine()
    {
        var outcome = Verify("--require", "timestamp", "--format", "json");

        Assert.Equal(1, outcome.ExitCode);
        Assert.Contains(
            "{\"name\":\"timestamp\",\"result\":\"failed\"",
            outcome.StandardOutput,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Verify_GrowthWithoutCheckpoint_IsUnusable()
    {
        var outcome = Verify("--growth", report.Pdf + ".proof");

        Assert.Equal(2, outcome.ExitCode);
        Assert.Contains("--checkpoint FILE", outcome.StandardError, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--log-key", "line 1: `nothing of the kind`; accepted: a verifier key on one line")]
    [InlineData("--proof", "line 1: `nothing of the kind`; accepted: `c2sp.org/tlog-proof@v1`")]
    [InlineData("--checkpoint", "line ")]
    public void Verify_FileBesideThatIsNoneOfTheKind_IsUnusable(string option, string told)
    {
        var path = report.Shop.Write("unfit.txt", "nothing of the kind\n"u8.ToArray());

        var outcome = Verify(option, path);

        Assert.True(outcome.ExitCode == 2, outcome.ToString());
        Assert.Empty(outcome.StandardOutput);
        Assert.Contains($"({option}) cannot be used: ", outcome.StandardError, StringComparison.Ordinal);
        Assert.Contains("unfit.txt", outcome.StandardError, StringComparison.Ordinal);
        Assert.Contains(told, outcome.StandardError, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--log-key")]
    [InlineData("--proof")]
    [InlineData("--checkpoint")]
    public void Verify_EmptyFileBeside_IsUnusable(string option)
    {
        var outcome = Verify(option, report.Shop.Write("empty", []));

        Assert.True(outcome.ExitCode == 2, outcome.ToString());
        Assert.Contains("cannot be used: line 1: ", outcome.StandardError, StringComparison.Ordinal);
    }

    [Fact]
    public void Verify_SeveralCheckpointsInOneFile_IsUnusable()
    {
        var one = File.ReadAllText(Told("one-checkpoint", "checkpoint"));

        var outcome = Verify(
            "--checkpoint",
            report.Shop.Write("checkpoints.txt", Encoding.UTF8.GetBytes(one + "\n" + one))
        );

        Assert.True(outcome.ExitCode == 2, outcome.ToString());
    }

    private static string Unwrapped(string text) =>
        string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));

    [SkippableFact]
    public void Pdfdetach_FiledReport_FindsNineAttachmentsWithWhatTheyAre()
    {
        var file = Encoding.Latin1.GetString(File.ReadAllBytes(report.Pdf));
        var listed = Tool.Require("pdfdetach").Run("-list", report.Pdf).StandardOutput;

        Assert.StartsWith("9 embedded files", listed, StringComparison.Ordinal);
        Assert.Matches("/F\\(record.json\\)[^\n]*/AFRelationship/Source", file);
        Assert.Matches("/F\\(assessment.json\\)[^\n]*/AFRelationship/Data", file);
        Assert.Matches("/F\\(record.proof\\)[^\n]*/AFRelationship/Supplement", file);
        Assert.Equal(
            6,
            Count(file, "/Subtype/application#2Fjson") + Count(file, "/Subtype/application#2fjson")
        );
        Assert.Equal(9, Count(file, "/CheckSum"));
    }

    private static int Count(string text, string part) => text.Split(part).Length - 1;
}
