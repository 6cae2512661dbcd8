using System.Text;
using ServiceRules.Application.Recall;
using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests;

public sealed class RecallCommandTests : IDisposable
{
    private readonly Product _product = new();

    public void Dispose() => _product.Dispose();

    /// <summary>Height checks at 3.80 to 3.83 mm, allowed 3.67 to 3.93 mm, the zero check of the gauge left out.</summary>
    private string Records(string folder = "records")
    {
        var job = Fixtures.Changed(
            "height-check",
            (
                "\"coverageFactor\": 2 },\n      \"zeroCheck\": { \"error\": \"0.00 mm\", \"settingPiece\": \"SP-01\" }",
                "\"coverageFactor\": 2 }"
            )
        );
        _product.Write($"{folder}/a.json", job);
        return _product.At(folder);
    }

    [Fact]
    public void Recall_ErrorThatLeavesEveryReleaseStanding_EndsWithZero()
    {
        var outcome = _product.Run("recall", "HG-01", "--error", "0.03 mm", Records());

        Manners.Hold(outcome);
        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.Contains("found to read 0.03 mm high", outcome.StandardOutput, StringComparison.Ordinal);
        Assert.Contains(
            "1 stand, 0 would not have gone out",
            outcome.StandardOutput,
            StringComparison.Ordinal
        );
        Assert.Empty(outcome.StandardError);
    }

    [Fact]
    public void Recall_ErrorThatUndoesARelease_EndsWithOneAndSaysWhichUnitIsOut()
    {
        var outcome = _product.Run(
            "recall",
            "HG-01",
            "--error",
            "-0.25 mm",
            "--uncertainty",
            "0.01 mm",
            "--from",
            "2026-04-01",
            Records()
        );

        Manners.Hold(outcome);
        Assert.True(outcome.ExitCode == 1, outcome.ToString());
        Assert.Contains("Went out, and would not have: 1", outcome.StandardOutput, StringComparison.Ordinal);
        Assert.Contains(
            "Height on target: was in, would be OUT",
            outcome.StandardOutput,
            StringComparison.Ordinal
        );
        Assert.Contains(
            "found to read 0.25 mm low (± 0.01 mm)",
            outcome.StandardOutput,
            StringComparison.Ordinal
        );
        Assert.Contains("U-02-1 (M-02, 2026-04-13)", outcome.StandardOutput, StringComparison.Ordinal);
    }

    [Fact]
    public void Recall_SinceNobodyKnows_SaysCannotBeTold()
    {
        var outcome = _product.Run("recall", "HG-01", "--error", "0.25 mm", Records());

        Assert.True(outcome.ExitCode == 1, outcome.ToString());
        Assert.Contains(
            "in without the error, OUT with it",
            outcome.StandardOutput,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Recall_BadFileAmongGoodOnes_AnswersTheRestAndEndsWithTwo()
    {
        var folder = Records();
        var bad = _product.Write("records/bad.json", "{}"u8.ToArray());

        var outcome = _product.Run("recall", "HG-01", "--error", "0.03 mm", folder);

        Manners.Hold(outcome);
        Assert.True(outcome.ExitCode == 2, outcome.ToString());
        Assert.Contains($"{bad}: line 1, column 1", outcome.StandardError, StringComparison.Ordinal);
        Assert.Contains("1 stand", outcome.StandardOutput, StringComparison.Ordinal);
    }

    [Fact]
    public void Recall_FormatJson_IsOneDocumentThatReadsBack()
    {
        var outcome = _product.Run("recall", "HG-01", "--error", "0.25 mm", "--format", "json", Records());

        var bytes = Encoding.UTF8.GetBytes(outcome.StandardOutput);
        Assert.True(
            RecallFormat.Current.Read(bytes).TryGet(out var read, out var problems),
            problems.ToString()
        );
        Assert.Equal(1, read.Totals.ReleasedCannotBeTold);
    }

    [Theory]
    [InlineData("recall", "HG-01", "records")]
    [InlineData("recall", "HG-01", "--error", "6 hundredths", "records")]
    [InlineData("recall", "HG-01", "--error", "0 mm", "records")]
    [InlineData("recall", "HG-01", "--error", "0.06 mm", "--uncertainty", "-0.01 mm", "records")]
    [InlineData("recall", "HG-01", "--error", "0.06 mm", "--from", "1 June", "records")]
    [InlineData(
        "recall",
        "HG-01",
        "--error",
        "0.06 mm",
        "--from",
        "2026-06-02",
        "--until",
        "2026-06-01",
        "records"
    )]
    [InlineData("recall", "HG-77", "--error", "0.06 mm", "records")]
    [InlineData("recall", "HG-01", "--error", "0.06 mm", "nothing-here")]
    [InlineData("recall", "HG-01", "--error", "0.06 mm", "home")]
    public void Recall_UnusableInput_EndsWithTwoAndSaysWhy(params string[] arguments)
    {
        Records();

        Manners.HoldForRefusal(_product.Run(arguments));
    }
}
