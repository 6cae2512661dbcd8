using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests;

/// <summary>What an uncertainty is made of, and how a rule decided, as people are told it.</summary>
public sealed class BudgetPrintTests : IDisposable
{
    // √(0.005² + 0.0028868² + 0.004²) = 0.0070238, twice that 0.0140476; each rounded up to 0.000001 mm.
    private const string Budget =
        ": certificate 0.005124; step shown 0.002887; repeatability 0.004; together u = 0.007113 mm, taken as known, k = 2 at 95.45 %; U = 0.014225 mm";

    private readonly Product _product = new();

    public void Dispose() => _product.Dispose();

    [Fact]
    public void Check_Budget_TellsWhatEachUncertaintyIsMadeOf()
    {
        var outcome = _product.Run("check", Example("met"), "--budget");

        Manners.Hold(outcome);
        Assert.Contains(Budget, outcome.StandardOutput, StringComparison.Ordinal);
        Assert.Contains("decided: guarded by the full U", outcome.StandardOutput, StringComparison.Ordinal);
    }

    [Fact]
    public void Check_WithoutIt_StaysShort() =>
        Assert.DoesNotContain(
            "uncertainty at",
            _product.Run("check", Example("not-met"), "--all").StandardOutput,
            StringComparison.Ordinal
        );

    [Fact]
    public void Check_TooNearToItsLimit_SaysHowLikelyItIsIn() =>
        // Φ(0.01/0.0071126) = Φ(1.40596) = 0.92013.
        Assert.Contains(
            "closer to the limit than this gauge can tell (chance that it is in: 92.0 %)",
            _product.Run("check", Example("unproven-by-guard")).StandardOutput,
            StringComparison.Ordinal
        );

    [Fact]
    public void Explain_MeasuredRule_TellsTheDecisionTheBudgetTheGaugeNeededAndOnePlaceWorked()
    {
        var outcome = _product.Run("rules", "explain", Example("not-met"), "height-on-target");

        Manners.Hold(outcome);
        Assert.All(
            (string[])
                [
                    "decided: guarded by the full U",
                    "in where it lies inside each limit by g = 1 x U",
                    "a value exactly on a limit keeps it",
                    "U at 95.45 %, k from Student's t",
                    "ends that were not read by the least-squares line",
                    Budget,
                    // Half of 3.93 - 3.67.
                    "coarsest gauge that could prove 3.67 to 3.93 mm: U up to 0.13 mm",
                    "3.95 mm: out",
                ],
            told => Assert.Contains(told, outcome.StandardOutput, StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Explain_RuleByChance_TellsItsChancesItsLineAndTheRiskOfItsAnswer()
    {
        var outcome = _product.Run(
            "rules",
            "explain",
            Fixtures.PathOf("touch-up"),
            "front-roller-parallel-seen"
        );

        Manners.Hold(outcome);
        Assert.All(
            (string[])
                [
                    "by the chance that it is in: met from 95 %, not met up to 5 %",
                    "what squaring cannot take out by the least-squares zone",
                    "is in with a chance of > 99.9 %: in",
                    "(chance that it is in fact out: < 0.1 %)",
                ],
            told => Assert.Contains(told, outcome.StandardOutput, StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Explain_WhatFeelersTell_SaysThatItsEndsDecide() =>
        Assert.Contains(
            "decided: in where all that the feelers leave lies inside the limits, out where none of it does",
            _product
                .Run("rules", "explain", Fixtures.PathOf("full-service-125"), "shield-gap-within-limits")
                .StandardOutput,
            StringComparison.Ordinal
        );

    private static string Example(string name) =>
        ReferenceFiles.InRepository("docs", "examples", "verdicts", name + ".json");
}
