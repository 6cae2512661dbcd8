using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests;

public sealed class RulesExplainCommandTests : IDisposable
{
    private readonly Product _product = new();

    public void Dispose() => _product.Dispose();

    private string Record(string fixture = "height-check") =>
        _product.Write("a.json", Fixtures.Bytes(fixture));

    [Fact]
    public void Explain_OneRule_TellsConditionLimitEvidenceDecisionAndVerdict()
    {
        var outcome = _product.Run("rules", "explain", Record(), "height-on-target");

        Manners.Hold(outcome);
        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.All(
            new[]
            {
                "from pack base 1.2.0 (base): base/rollers-and-height.rules.json",
                "yes  task height check, height change, full service, grind or seasonal overhaul, or at any task height of cut as read and still holding; here height check",
                "setting order S-2026-season by lead-01",
                "0.005 in (0.13 mm)",
                "rests on published, turf reference register TL1",
                "seen: /units/0/entries/0  unit U-02-1: height of cut left 3.80 mm (HG-01)",
                "gauge HG-01: height gauge, shows steps of 0.01 mm, calibrated to ± 0.010 mm (k = 2) until 2027-01-10",
                "decided: guarded by the full U",
                "in: Height of cut: in at ",
            },
            told => Assert.Contains(told, outcome.StandardOutput, StringComparison.Ordinal)
        );
        Assert.Empty(outcome.StandardError);
    }

    [Fact]
    public void Explain_RuleOfSafeWork_TellsTheEventsItRestsOn()
    {
        var outcome = _product.Run("rules", "explain", Record(), "affected-told");

        Assert.Contains(
            "seen: /timeline/0  08:00 affected people told (with tech-04), by tech-02",
            outcome.StandardOutput,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Explain_EveryRule_TellsOfEachWhyItDoesNotApply()
    {
        var outcome = _product.Run("rules", "explain", Record());

        Manners.Hold(outcome);
        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.Contains(
            "units U-02-1, U-02-2, U-02-3: does not apply: asks for task full service, grind or seasonal overhaul, here height check",
            outcome.StandardOutput.Replace(
                "unit U-02-1, unit U-02-2, unit U-02-3",
                "units U-02-1, U-02-2, U-02-3",
                StringComparison.Ordinal
            ),
            StringComparison.Ordinal
        );
        Assert.Contains("0 out, 0 not proven", outcome.StandardOutput, StringComparison.Ordinal);
    }

    [Fact]
    public void Explain_HeldRecord_StillEndsWithZeroAndTellsTheBreachInFull()
    {
        var record = _product.Write(
            "out.json",
            Fixtures.Changed("height-check", ("\"3.80 mm\"", "\"4.30 mm\""))
        );

        var outcome = _product.Run("rules", "explain", record);

        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.Contains("OUT, holds: Height of cut", outcome.StandardOutput, StringComparison.Ordinal);
        Assert.Contains(
            "held against: target for height of cut",
            outcome.StandardOutput,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Explain_UnknownRule_NamesTheNearest()
    {
        var outcome = _product.Run("rules", "explain", Record(), "height-on-taget");

        Manners.HoldForRefusal(outcome);
        Assert.Contains("`height-on-target`", outcome.StandardError, StringComparison.Ordinal);
    }

    [Fact]
    public void Explain_BadRecord_TellsEveryProblem()
    {
        var record = _product.Write(
            "bad.json",
            """{ "format": "service-record/1", "id": 7, "date": "soon" }"""u8.ToArray()
        );

        var outcome = _product.Run("rules", "explain", record);

        Manners.HoldForRefusal(outcome);
        Assert.True(outcome.Complaints.Count > 1, outcome.ToString());
    }

    [Theory]
    [InlineData("rules", "explain")]
    [InlineData("rules", "explain", "nothing-here.json")]
    [InlineData("rules", "explain", "home")]
    [InlineData("rules", "explain", "a.json", "--rules", "home")]
    public void Explain_UnusableInput_EndsWithTwoAndSaysWhy(params string[] arguments)
    {
        Record();

        Manners.HoldForRefusal(_product.Run(arguments));
    }
}
