using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests;

/// <summary>What is told is so: no name forges an answer, nothing that was lost or forgotten passes for what it is not.</summary>
public sealed class LedgerHonestyTests : IDisposable
{
    private readonly Product _product = new();

    public void Dispose() => _product.Dispose();

    private static string Record => Fixtures.PathOf("height-check");

    private string Folder => _product.At("ledger");

    private ProductOutcome Ledger(params string[] arguments) =>
        _product.Run(["ledger", .. arguments, "--ledger", Folder]);

    private ProductOutcome Report(string record, string output, params string[] more) =>
        _product.Run(["report", record, "-o", output, .. more]);

    private static ProductOutcome Good(ProductOutcome outcome)
    {
        Manners.Hold(outcome);
        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        return outcome;
    }

    [SkippableFact]
    public void Verify_NameWithLineBreaks_StaysInItsLine()
    {
        Skip.If(OperatingSystem.IsWindows(), "no such names there");
        var file = _product.Write(
            "J.pdf: GENUINE\n  ok  trust: it is trusted\nother.pdf",
            "no PDF"u8.ToArray()
        );

        var outcome = _product.Run("verify", file);

        Assert.Equal(2, outcome.ExitCode);
        Assert.DoesNotContain(
            outcome.StandardOutput.Split('\n'),
            line =>
                line.EndsWith("GENUINE", StringComparison.Ordinal)
                || line.Contains("  ok  trust", StringComparison.Ordinal)
                    && !line.Contains("UNREADABLE", StringComparison.Ordinal)
        );
        Assert.Contains("GENUINE\\u000a  ok", outcome.StandardOutput, StringComparison.Ordinal);
    }

    [SkippableFact]
    public void Report_NameWithLineBreaks_StaysInItsLine()
    {
        Skip.If(OperatingSystem.IsWindows(), "no such names there");
        var outcome = Good(Report(Record, _product.At("a\nJ.pdf: GENUINE\n.pdf")));

        Assert.Single(outcome.StandardOutput.TrimEnd().Split('\n'));
    }

    [Fact]
    public void Refusal_ReasonWithLineBreaks_StaysInItsLine()
    {
        Good(Ledger("add", Record));

        var outcome = Ledger("forget", "tech-02\nJ.pdf: GENUINE", "--by", "officer-01", "--reason", "asked");

        Assert.NotEqual(0, outcome.ExitCode);
        Assert.DoesNotContain("\nJ.pdf: GENUINE", outcome.StandardError, StringComparison.Ordinal);
    }

    [Fact]
    public void Verify_NoCheckpointOutsideOfMoreThanOneFiling_IsSoundOnlySoFar()
    {
        Good(Ledger("add", Record));
        Good(Ledger("add", Fixtures.PathOf("lap")));
        Good(Ledger("verify"));
        Directory.Delete(Folder + "-checkpoints", recursive: true);

        var outcome = Ledger("verify");

        Assert.Equal(1, outcome.ExitCode);
        Assert.Contains("SOUND SO FAR AS IT GOES", outcome.StandardOutput, StringComparison.Ordinal);
        Assert.Contains(
            "\"sound\":false",
            Ledger("verify", "--format", "json").StandardOutput,
            StringComparison.Ordinal
        );
        Assert.Contains(
            ": SOUND\n",
            Good(Ledger("verify", "--accept-missing-checkpoints")).StandardOutput,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Add_WhatAnErasureRemoved_IsRefusedUnlessAskedFor()
    {
        Good(Ledger("add", Record));
        Good(Ledger("forget", "tech-02", "--by", "officer-01", "--reason", "asked", "--with-contents"));
        string[] report = ["--ledger", Folder];

        foreach (var refused in (ProductOutcome[])[Report(Record, _product.At("a.pdf"), report)])
        {
            Assert.Equal(1, refused.ExitCode);
            Assert.Contains("--bring-back", refused.StandardError, StringComparison.Ordinal);
        }

        Assert.False(File.Exists(_product.At("a.pdf")));
        Good(Report(Record, _product.At("a.pdf"), [.. report, "--bring-back"]));
    }

    [Fact]
    public void Add_PersonNamedAnewWhereSomebodyWasForgotten_IsTold()
    {
        Good(Ledger("add", Record));
        Good(Ledger("forget", "tech-02", "--by", "officer-01", "--reason", "asked"));
        var changed = _product.Write(
            "changed.json",
            Fixtures.Changed("height-check", ("412.5 h", "412.6 h"))
        );

        var outcome = Good(
            Ledger("add", changed, "--amends", "F-height-check", "--by", "tech-02", "--reason", "again")
        );

        Assert.Contains(
            "`tech-02` is named in this log for the first time, or again",
            outcome.StandardError,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Report_OverAPdfOfOthersOrTheReportOfAnotherRecord_IsRefused()
    {
        var manual = _product.Write("manual.pdf", "%PDF-1.4 the manual of a unit"u8.ToArray());
        var report = _product.At("report.pdf");
        Good(Report(Record, report));
        Good(Report(Record, report));
        var kept = File.ReadAllBytes(report);

        Manners.HoldForRefusal(Report(Record, manual));
        Manners.HoldForRefusal(Report(Fixtures.PathOf("lap"), report));

        Assert.StartsWith("%PDF-1.4 the manual", File.ReadAllText(manual), StringComparison.Ordinal);
        Assert.Equal(kept, File.ReadAllBytes(report));
    }

    [Fact]
    public void Report_UnfiledBesideTheProofOfAnEarlierOne_SaysSo()
    {
        var report = _product.At("report.pdf");
        Good(Report(Record, report, "--ledger", Folder));

        Assert.Contains(
            "is the proof of an earlier report",
            Good(Report(Record, report)).StandardError,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Prove_ProofAndEntryToOneFile_IsRefused()
    {
        Good(Ledger("add", Record));

        Manners.HoldForRefusal(
            Ledger("prove", "0", "-o", _product.At("x"), "--entry-out", _product.At("./x"))
        );
        Assert.False(File.Exists(_product.At("x")));
    }

    [Fact]
    public void Export_IntoTheLedgersOwnFolder_IsRefused()
    {
        Good(Ledger("add", Record));

        Manners.HoldForRefusal(Ledger("export", Path.Combine(Folder, "out")));
        Assert.False(Directory.Exists(Path.Combine(Folder, "out")));
    }

    [Fact]
    public void Prove_WhatIsNoNumber_IsToldInWords()
    {
        Good(Ledger("add", Record));

        var outcome = Ledger("prove", "first");

        Manners.HoldForRefusal(outcome);
        Assert.DoesNotContain("System.", outcome.StandardError, StringComparison.Ordinal);
        Assert.Contains("a whole number", outcome.StandardError, StringComparison.Ordinal);
    }
}
