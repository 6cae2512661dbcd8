using ServiceRules.TestKit;

namespace ServiceRules.Cli.Tests.Authoring;

/// <summary>What `rules new` makes is sound and comes out as it says, or is not there at all.</summary>
public sealed class RulesNewCommandTests : IDisposable
{
    private readonly Product _product = new();
    private readonly string _rules;

    public RulesNewCommandTests() => _rules = RulesCopy.In(_product);

    public void Dispose() => _product.Dispose();

    private ProductOutcome New(params string[] more) =>
        _product.Run(["rules", "new", .. more, "--rules", _rules]);

    private ProductOutcome Rule(string id, string check, string quantity, params string[] more) =>
        New([
            "rule",
            id,
            "--check",
            check,
            "--quantity",
            quantity,
            "--title",
            "A rule of the shop",
            "--requirement",
            "It is as it should be.",
            "--advice",
            "Put it right.",
            .. more,
        ]);

    private ProductOutcome Sheet(params string[] more) =>
        New([
            "unit-kind",
            "reel-250-8-910",
            "--like",
            "reel-200-6-760",
            "--diameter",
            "250 mm",
            "--blades",
            "8",
            "--width",
            "910 mm",
            "--source",
            "the unit's own manual, page 31",
            .. more,
        ]);

    private void Refused(ProductOutcome outcome, string before, string told)
    {
        Manners.HoldForRefusal(outcome);
        Assert.Contains(told, outcome.StandardError, StringComparison.Ordinal);
        Assert.Equal(before, RulesCopy.Everything(_rules));
    }

    [Theory]
    [InlineData("sound-condition", "guards")]
    [InlineData("limit-on-quantity", "shield-gap")]
    [InlineData("procedural-limit", "clearance")]
    [InlineData("contact", "clearance")]
    [InlineData("presence", "groomer-height")]
    [InlineData("freshness", "height-of-cut")]
    public void Rule_OfEachKind_PassesCheckAndItsCases(string check, string quantity)
    {
        var outcome = Rule("shop-rule", check, quantity, "--attachment", "groomer", "--task", "full-service");
        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.True(_product.Run("rules", "check", "--rules", _rules).ExitCode == 0);
        var tested = _product.Run("rules", "test", "--rule", "shop-rule", "--all", "--rules", _rules);
        Assert.True(tested.ExitCode == 0, tested.ToString());
        Assert.All(
            new[]
            {
                "expects met",
                "expects not met",
                "expects unproven",
                "expects not applicable",
                "1 released",
            },
            told => Assert.Contains(told, tested.StandardOutput, StringComparison.Ordinal)
        );
        var made = Path.Combine(_rules, "site-alder-reach/site.cases.json");
        Assert.Equal(0, _product.Run("rules", "format", "--check", made).ExitCode);
    }

    [Fact]
    public void Rule_Second_StandsBesideTheFirst()
    {
        Assert.Equal(0, Rule("shop-one", "sound-condition", "guards", "--task", "full-service").ExitCode);
        var outcome = Rule("shop-two", "sound-condition", "bearing-play", "--task", "full-service");
        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        var tested = _product.Run("rules", "test", "--rules", _rules);
        Assert.True(tested.ExitCode == 0, tested.ToString());
    }

    [Fact]
    public void Rule_ThatHoldsAFixtureOfOthers_TellsWhich()
    {
        var outcome = Rule("shop-rule", "presence", "bearing-play");
        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.Contains("note: the fixture base/fixtures/", outcome.StandardOutput, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("shop-rule", "relation", "guards", "sound-condition, limit-on-quantity")]
    [InlineData("shop-rule", "sound-condition", "guard", "height-of-cut")]
    [InlineData("Shop Rule", "sound-condition", "guards", "small letters and digits joined by hyphens")]
    [InlineData(
        "height-on-target",
        "sound-condition",
        "guards",
        "there is a rule `height-on-target` in the pack `base`"
    )]
    [InlineData("shop-rule", "sound-condition", "clearance", "what is judged by eye or hand")]
    [InlineData("shop-rule", "limit-on-quantity", "groomer-height", "SR0005")]
    public void Rule_ThatCannotBe_IsRefusedWithWhatIsAccepted(
        string id,
        string check,
        string quantity,
        string told
    )
    {
        var before = RulesCopy.Everything(_rules);
        Refused(Rule(id, check, quantity), before, told);
    }

    [Fact]
    public void Rule_WithoutItsWordsAndNobodyToAsk_SaysWhatIsMissing()
    {
        var before = RulesCopy.Everything(_rules);
        Refused(New("rule", "shop-rule", "--quantity", "guards"), before, "--check is not given");
    }

    [Fact]
    public void Sheet_OfANewKind_PassesCheckAndTellsWhatElseIsNeeded()
    {
        var outcome = Sheet(
            "--limit",
            "reel-diameter lower=238 mm",
            "--limit",
            "clearance upper=0.12 mm",
            "--machine",
            "M-20"
        );
        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.Equal(0, _product.Run("rules", "check", "--rules", _rules).ExitCode);
        var text = File.ReadAllText(Path.Combine(_rules, "sheets/reel-250-8-910.sheet.json"));
        Assert.All(
            new[]
            {
                "\"title\": \"250 mm reel, 8 blades, 910 mm, fixed bedknife\"",
                "\"rightStation\": \"859 mm\"",
                "\"rightAt\": \"930 mm\"",
                "\"lower\": \"238 mm\", \"basis\": { \"kind\": \"manual\", \"source\": \"the unit's own manual, page 31\" }",
                "upper: the unit's own manual, page 31; leftStation, rightStation, lower, target, passes, stops: as on reel-200-6-760, not yet read",
            },
            told => Assert.Contains(told, text, StringComparison.Ordinal)
        );
        Assert.All(
            new[]
            {
                "not yet read in this unit's own manual: clearance, front-roller",
                "--school reel-250-8-910=light-contact",
                "the machine M-20 has to stand in site-alder-reach/registers.json",
                "procedure has to name the machine M-20",
            },
            told => Assert.Contains(told, outcome.StandardOutput, StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Sheet_ThatIsThere_IsNotWrittenOver()
    {
        Assert.Equal(0, Sheet("--without", "reel-diameter").ExitCode);
        var before = RulesCopy.Everything(_rules);
        Refused(Sheet("--without", "reel-diameter"), before, "there is a limit sheet `reel-250-8-910`");
    }

    [Theory]
    [InlineData("--limit", "clearance upper", "clearance upper=0.003 in (0.08 mm)")]
    [InlineData("--limit", "clearance uper=0.1 mm", "accepted: acrossUnits, adjacentEnds")]
    [InlineData("--limit", "gap upper=0.1 mm", "clearance, height-of-cut")]
    [InlineData("--limit", "clearance upper=0.1", "a number, one space and mm")]
    [InlineData("--limit", "clearance upper=0.1 mm (0.2 mm)", "same system")]
    [InlineData("--without", "groomer-height", "says nothing of `groomer-height`; accepted: clearance")]
    [InlineData("--basis", "hearsay", "site-policy")]
    [InlineData("--limit", "reel-diameter wornBelow=240 mm", "--limit \"reel-diameter lower=LENGTH\"")]
    public void Sheet_BadFlag_IsAnsweredWithWhatIsAccepted(string flag, string value, string told)
    {
        var before = RulesCopy.Everything(_rules);
        Refused(Sheet(flag, value), before, told);
    }

    [Fact]
    public void Sheet_LimitsBetweenWhichNothingLies_AreRefusedWithTheirPlace()
    {
        var before = RulesCopy.Everything(_rules);
        Refused(
            Sheet("--limit", "clearance upper=0.02 mm", "--without", "reel-diameter"),
            before,
            "at /quantities/0/upper"
        );
    }

    [Fact]
    public void Sheet_WithoutItsSizesAndNobodyToAsk_SaysWhatIsMissing()
    {
        var before = RulesCopy.Everything(_rules);
        Refused(
            New("sheet", "reel-250-8-910"),
            before,
            "--like is not given: the sheet that is most like it (reel-125-9-510"
        );
    }

    /// <summary>`guards-sound` stops what could hurt someone.</summary>
    [Fact]
    public void Sheet_WithoutWhatAStopRuleAsks_IsRefusedUntilItSaysWhy()
    {
        var before = RulesCopy.Everything(_rules);
        Refused(Sheet("--without", "reel-diameter", "--without", "guards"), before, "`guards-sound` stops");

        var outcome = Sheet(
            "--without",
            "reel-diameter=worn figures are not known yet",
            "--without",
            "guards=pushed by hand, nothing to guard"
        );
        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.Contains("notice SR0023 at /leftOut/1", outcome.ToString(), StringComparison.Ordinal);
        Assert.Contains(
            "{ \"quantity\": \"guards\", \"why\": \"pushed by hand, nothing to guard\" }",
            File.ReadAllText(Path.Combine(_rules, "sheets/reel-250-8-910.sheet.json")),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "left out as on reel-200-6-760: groomer-height (no groomer is fitted to this kind of unit)",
            outcome.StandardOutput,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Sheet_WithoutWhatARuleHoldsFor_SaysWhichRulesNeverReachIt()
    {
        var outcome = Sheet("--without", "reel-diameter", "--without", "bearing-play", "--without", "edge");
        Assert.True(outcome.ExitCode == 0, outcome.ToString());
        Assert.All(
            new[] { "`bearings-sound`", "`edges-cut-paper`", "`reel-above-service-limit`" },
            told => Assert.Contains(told, outcome.ToString(), StringComparison.Ordinal)
        );
    }
}
