using System.Text;
using System.Text.Json.Nodes;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Library;
using ServiceRules.Application.Tests.Filed;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;

namespace ServiceRules.Application.Tests.Assessing;

/// <summary>The height of the fixture is on the order's 3.8 mm; a card that asks for 4.3 mm puts it out, where it is taken.</summary>
public sealed class JobCardTests
{
    private const string Rule = "height-on-target";

    [Fact]
    public void Card_OfSomebodyWhoMayRelease_MovesTheTargetAndNamesCardAndOrder()
    {
        var finding = Judged(
            """{ "by": "lead-01", "card": "JC-7", "order": "S-2026-season", "value": "4.3 mm" }"""
        );

        Assert.Equal(Verdict.NotMet, finding.Verdict);
        var told =
            "asked for by `lead-01` on card JC-7: 4.3 mm; setting order S-2026-season for golf-greens asks for 3.8 mm";
        Assert.Contains(told, finding.Notices);
        Assert.True(ToldThoughMet.Is(told));
    }

    [Theory]
    [InlineData(
        """{ "card": "JC-7", "order": "S-2026-season", "value": "4.3 mm" }""",
        "it does not say who asked"
    )]
    [InlineData(
        """{ "by": "tech-02", "order": "S-2026-season", "value": "4.3 mm" }""",
        "they did the work themselves"
    )]
    [InlineData(
        """{ "by": "tech-04", "order": "S-2026-season", "value": "4.3 mm" }""",
        "the register does not let them release or order anything"
    )]
    [InlineData(
        """{ "by": "someone", "order": "S-2026-season", "value": "4.3 mm" }""",
        "the register of people does not have them"
    )]
    [InlineData("""{ "by": "lead-01", "value": "4.3 mm" }""", "it does not name setting order S-2026-season")]
    [InlineData(
        """{ "by": "lead-01", "order": "S-2025-season", "value": "4.3 mm" }""",
        "it moves away from setting order S-2025-season, and S-2026-season is in force here"
    )]
    public void Card_ThatIsNotTaken_LeavesTheOrderAndSaysWhy(string card, string why)
    {
        var finding = Judged(card);

        Assert.Equal(Verdict.Met, finding.Verdict);
        var notice = Assert.Single(finding.Notices, ToldThoughMet.IsOfJobCard);
        Assert.Contains($"not taken: {why}", notice, StringComparison.Ordinal);
        Assert.EndsWith(
            "setting order S-2026-season for golf-greens asks for 3.8 mm",
            notice,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Card_ThatAsksForWhatTheOrderAsks_IsNotTold() =>
        Assert.DoesNotContain(
            Judged("""{ "by": "tech-02", "value": "3.80 mm" }""").Notices,
            ToldThoughMet.IsOfJobCard
        );

    /// <summary>Two cards: a later one that is not taken puts no earlier one aside.</summary>
    [Fact]
    public void Card_AfterOneThatIsTaken_NotTaken_LeavesTheEarlier()
    {
        var finding = Judged(
            """{ "by": "lead-01", "order": "S-2026-season", "value": "4.3 mm" }""",
            """{ "by": "tech-02", "order": "S-2026-season", "value": "3.85 mm" }"""
        );

        Assert.Equal(Verdict.NotMet, finding.Verdict);
        Assert.Equal(2, finding.Notices.Count(ToldThoughMet.IsOfJobCard));
    }

    [Fact]
    public void Card_WithNoRegisterAtAll_IsTakenAndSaysThatNobodyHeldIt()
    {
        var rules = RecordFiles.Rules;
        var bare = new SiteRegisters { Name = "no site", Zone = rules.Site!.Zone };

        var finding = Judged(bare, _ => { }, """{ "by": "lead-01", "value": "4.3 mm" }""");

        Assert.Equal(Verdict.NotMet, finding.Verdict);
        Assert.EndsWith(
            "there is no register of people to hold who asked against",
            Assert.Single(finding.Notices, ToldThoughMet.IsOfJobCard),
            StringComparison.Ordinal
        );
    }

    /// <summary>A site that keeps orders knows its people: none of them in the record is no way past the register.</summary>
    [Fact]
    public void Card_OfPeopleWhomNoRegisterHas_AtASiteWithOrders_IsNotTaken()
    {
        var site = RecordFiles.Rules.Site! with { People = [] };

        var finding = Judged(
            site,
            _ => { },
            """{ "by": "officer-01", "order": "S-2026-season", "value": "4.3 mm" }"""
        );

        Assert.Equal(Verdict.Met, finding.Verdict);
    }

    /// <summary>Until the day on which somebody leaves their word counts, and none after it, of whoever set the order neither.</summary>
    [Theory]
    [InlineData(13, Verdict.NotMet)]
    [InlineData(12, Verdict.Met)]
    public void Card_OfSomebodyWhoHasLeft_CountsUntilThen(int left, Verdict verdict)
    {
        var site = RecordFiles.Rules.Site!;
        var leaving = site with
        {
            People =
            [
                .. site.People.Select(person =>
                    person.Id.Text == "lead-01" ? person with { Left = new(2026, 4, left) } : person
                ),
            ],
        };

        var finding = Judged(
            leaving,
            _ => { },
            """{ "by": "lead-01", "card": "JC-7", "order": "S-2026-season", "value": "4.3 mm" }"""
        );

        Assert.Equal(verdict, finding.Verdict);
    }

    [Theory]
    [InlineData(
        "golf-green",
        "no setting order in force knows the area `golf-green`; did you mean `golf-greens`?"
    )]
    [InlineData(null, "the record does not say on which area the machine works")]
    public void Area_ThatNoOrderKnows_IsTold(string? area, string told)
    {
        var finding = Judged(RecordFiles.Rules.Site!, record => record["machine"]!["area"] = area);

        Assert.Equal(FindingReason.NoSettingInForce, finding.Reason);
        Assert.Contains(told, finding.Statement, StringComparison.Ordinal);
    }

    /// <summary>What stands is the target of an area where the register does not have the machine.</summary>
    [Fact]
    public void Area_OnWhichTheRegisterDoesNotHaveTheMachine_ProvesNothingMet()
    {
        var site = RecordFiles.Rules.Site!;
        site = site with
        {
            SettingOrders =
            [
                .. site.SettingOrders.Select(order =>
                    order with
                    {
                        Targets =
                        [
                            .. order.Targets.Select(one =>
                                one.Area == "golf-greens" ? one with { Area = "golf-tees" } : one
                            ),
                        ],
                    }
                ),
            ],
        };

        var finding = Judged(site, record => record["machine"]!["area"] = "golf-tees");

        Assert.Equal((Verdict.Unproven, FindingReason.NoSettingInForce), (finding.Verdict, finding.Reason));
        Assert.Contains(
            "the record has machine M-02 on `golf-tees`, and the register on `golf-greens`",
            finding.Statement,
            StringComparison.Ordinal
        );
    }

    private static Finding Judged(params string[] cards) => Judged(RecordFiles.Rules.Site!, _ => { }, cards);

    private static Finding Judged(SiteRegisters site, Action<JsonNode> edit, params string[] cards)
    {
        var job = RecordFiles.Fixture("height-check");
        edit(job);
        var people = job["people"]!.AsArray();
        foreach (var known in (string[])["lead-01", "officer-01", "someone"])
        {
            people.Add(new JsonObject { ["id"] = known, ["role"] = "leads" });
        }

        if (cards.Length > 0)
        {
            job["requested"] = new JsonArray([
                .. cards.Select(card =>
                {
                    var one = JsonNode.Parse(card)!;
                    one["quantity"] = "height-of-cut";
                    return one;
                }),
            ]);
        }

        if (job["machine"]!["area"] is null)
        {
            job["machine"]!.AsObject().Remove("area");
        }

        var judged = Assert.IsType<AssessOutcome.Judged>(
            new AssessRecord(RecordFiles.Rules.Book, site).Assess(Encoding.UTF8.GetBytes(job.ToJsonString()))
        );
        return judged.Assessed.Assessment.Findings.First(finding => finding.Rule == Rule);
    }
}
