using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests.Authoring;

/// <summary>A waiver is entered by command, and told wherever it counts.</summary>
public sealed class RulesWaiveCommandTests : IDisposable
{
    private readonly Product _product = new();
    private readonly string _rules;

    public RulesWaiveCommandTests() => _rules = RulesCopy.In(_product);

    public void Dispose() => _product.Dispose();

    private ProductOutcome Waive(
        string rule = "height-on-target",
        string by = "lead-01",
        string from = "2026-04-01",
        string until = "2026-04-30",
        params string[] more
    ) =>
        _product.Run([
            "rules",
            "waive",
            rule,
            "--by",
            by,
            "--reason",
            "the new gauge comes on Friday",
            "--from",
            from,
            "--until",
            until,
            .. more,
            "--rules",
            _rules,
        ]);

    private void Refused(ProductOutcome outcome, string before, string told)
    {
        Manners.HoldForRefusal(outcome);
        Assert.Contains(told, outcome.StandardError, StringComparison.Ordinal);
        Assert.Equal(before, RulesCopy.Everything(_rules));
    }

    [Fact]
    public void Waive_RuleThatHolds_LetsTheJobOutAndIsToldInFindingAndReport()
    {
        var job = _product.Write(
            "job.json",
            Fixtures.Changed("height-check", ("\"3.80 mm\"", "\"4.30 mm\""))
        );
        var outcome = Waive();
        Manners.Hold(outcome);
        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.Contains(
            "waived on every unit from 2026-04-01 through 2026-04-30 by lead-01",
            outcome.StandardOutput,
            StringComparison.Ordinal
        );

        var judged = _product.Run("check", job, "--rules", _rules);
        Assert.Contains(
            "let out: waived by `lead-01` until 2026-04-30: the new gauge comes on Friday",
            judged.StandardOutput,
            StringComparison.Ordinal
        );
        var explained = _product.Run("rules", "explain", job, "height-on-target", "--rules", _rules);
        Assert.Contains("the new gauge comes on Friday", explained.StandardOutput, StringComparison.Ordinal);
    }

    [Fact]
    public void Waive_Twice_IsRefusedWithThePlaceOfTheFirst()
    {
        Assert.Equal(0, Waive().ExitCode);
        var before = RulesCopy.Everything(_rules);
        Refused(
            Waive(from: "2026-04-30", until: "2026-05-30"),
            before,
            "/waivers/0: `height-on-target` is waived on every unit already"
        );
        Assert.Equal(0, Waive(from: "2026-05-01", until: "2026-05-30").ExitCode);
    }

    [Theory]
    [InlineData("no-such-rule", "lead-01", "2026-04-30", "there is no rule `no-such-rule`")]
    [InlineData("sources-isolated", "lead-01", "2026-04-30", "is never waived")]
    [InlineData("height-on-target", "tech-01", "2026-04-30", "SR0071")]
    [InlineData("height-on-target", "nobody", "2026-04-30", "is not in the register")]
    [InlineData("height-on-target", "lead-01", "2026-03-30", "before the first")]
    [InlineData("height-on-target", "lead-01", "30.4.2026", "a day such as `2026-03-01`")]
    public void Waive_WhatCannotBe_IsRefusedAndNothingIsStored(
        string rule,
        string by,
        string until,
        string told
    )
    {
        var before = RulesCopy.Everything(_rules);
        Refused(Waive(rule, by, until: until), before, told);
    }

    [Theory]
    [InlineData("--reason")]
    [InlineData("--until")]
    [InlineData("--by")]
    public void Waive_WithoutOneOfThem_SaysWhichAndWhatIsAccepted(string missing)
    {
        List<string> given =
        [
            "--by",
            "lead-01",
            "--reason",
            "why",
            "--from",
            "2026-04-01",
            "--until",
            "2026-04-30",
        ];
        given.RemoveRange(given.IndexOf(missing), 2);
        var outcome = _product.Run(["rules", "waive", "height-on-target", .. given, "--rules", _rules]);
        Manners.HoldForRefusal(outcome);
        Assert.Contains($"{missing} is not given", outcome.StandardError, StringComparison.Ordinal);
    }
}
