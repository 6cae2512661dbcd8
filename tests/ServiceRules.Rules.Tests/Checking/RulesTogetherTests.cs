using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Checking;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Checking.SoundLibrary;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Checking;

/// <summary>Rules that never apply, say the same twice or contradict one another, limits that none judges, days that are over.</summary>
public class RulesTogetherTests
{
    private static readonly DateOnly Today = new(2026, 11, 26);

    private static readonly Dictionary<
        string,
        (RuleLibrary Library, string Code, string File, string Pointer)
    > Spoilt = new(StringComparer.Ordinal)
    {
        ["a job rule that asks for units of no sheet"] = (
            With(Step with { When = new() { Bedknife = BedknifeMounting.Fixed } }),
            DiagnosticCode.NeverApplies,
            "base/a.rules.json",
            "/rules/0/when"
        ),
        ["a rule for a school that no sheet teaches"] = (
            With(Limit with { When = Limit.When with { School = ContactSchool.LightContact } }),
            DiagnosticCode.NeverApplies,
            "base/a.rules.json",
            "/rules/0/when"
        ),
        ["a rule for jobs on the machine with nothing to switch off"] = (
            With(
                Step with
                {
                    When = new() { Place = WorkPlace.OnMachine, Isolation = false },
                }
            ),
            DiagnosticCode.NeverApplies,
            "base/a.rules.json",
            "/rules/0/when/isolation"
        ),
        ["a limit that no rule judges"] = (
            WithClearance(limit => limit with { Parallelism = D("0.001 in") }),
            DiagnosticCode.QuantityNotJudged,
            "sheets/a.sheet.json",
            "/quantities/0/parallelism"
        ),
        ["a quantity that no rule names"] = (
            With(
                SoundLibrary.Sheet with
                {
                    Quantities = SoundLibrary.Sheet.Quantities.Add(
                        new() { Quantity = MeasuredQuantity.Edge, Basis = Practice }
                    ),
                }
            ),
            DiagnosticCode.QuantityNotJudged,
            "sheets/a.sheet.json",
            "/quantities/2"
        ),
        ["a rule that another asks as much as"] = (
            With(Limit, Limit with { Id = new("again"), Severity = Severity.Advise }),
            DiagnosticCode.Shadowed,
            "base/a.rules.json",
            "/rules/1"
        ),
        ["a rule that a later one asks more than"] = (
            With(
                Limit with
                {
                    Id = new("again"),
                    When = Limit.When with { Tasks = [ServiceTask.Lap] },
                },
                Limit
            ),
            DiagnosticCode.Shadowed,
            "base/a.rules.json",
            "/rules/0"
        ),
        ["two orders of work that cannot both be kept"] = (
            With(
                InOrder(AdjusterKind.Clearance, AdjusterKind.Height),
                InOrder(AdjusterKind.Height, AdjusterKind.Clearance) with
                {
                    Id = new("other-order"),
                }
            ),
            DiagnosticCode.RulesContradict,
            "base/a.rules.json",
            "/rules/1/check/order"
        ),
        ["two setting orders of one day"] = (
            Sound with
            {
                Orders =
                [
                    .. Sound.Orders,
                    new(
                        SoundLibrary.Order with
                        {
                            Id = new("S-2"),
                            Targets =
                            [
                                new(
                                    "golf-greens",
                                    "sheet-a",
                                    MeasuredQuantity.HeightOfCut,
                                    L("4.0 mm"),
                                    null
                                ),
                            ],
                        },
                        "site/setting-orders/S-2.json",
                        ""
                    ),
                ],
            },
            DiagnosticCode.OrdersDisagree,
            "site/setting-orders/S-2.json",
            "/targets/0/target"
        ),
        ["a rule that is over"] = (
            With(Limit with { When = Limit.When with { Until = new(2026, 11, 25) } }),
            DiagnosticCode.RuleOver,
            "base/a.rules.json",
            "/rules/0/when/until"
        ),
        ["a text that is in force no more"] = (
            Dated(null, new(2026, 11, 25)),
            DiagnosticCode.TextNotInForce,
            "law/pack.json",
            "/until"
        ),
        ["a text that is not yet in force"] = (
            Dated(new(2026, 11, 27), null),
            DiagnosticCode.TextNotInForce,
            "law/pack.json",
            "/from"
        ),
    };

    public static ImmutableArray<string> Codes => [.. Spoilt.Values.Select(one => one.Code).Distinct()];

    public static TheoryData<string> Names() => [.. Spoilt.Keys];

    [Theory]
    [MemberData(nameof(Names))]
    public void Of_OneThingSpoilt_TellsIt(string name)
    {
        var (library, code, file, pointer) = Spoilt[name];
        Assert.Contains(
            (code, file, pointer),
            PackCheck.Of(library, Today).Select(one => (one.Code, one.File, one.Pointer))
        );
    }

    [Fact]
    public void Of_RulesAndTextsInTheirLastDay_TellsNothing() =>
        Assert.DoesNotContain(
            PackCheck
                .Of(With(Limit with { When = Limit.When with { Until = Today } }), Today)
                .Concat(PackCheck.Of(Dated(Today, Today), Today)),
            one => one.Code is DiagnosticCode.RuleOver or DiagnosticCode.TextNotInForce
        );

    /// <summary>A text of a jurisdiction that the site does not name is nobody's to renew.</summary>
    [Fact]
    public void Of_TextThatTheSiteDoesNotName_TellsNothing() =>
        Assert.Empty(PackCheck.Of(Dated(null, new(2020, 1, 1)) with { Jurisdictions = [] }, Today));

    [Fact]
    public void Of_OrdersThatDoNotMeet_TellsNothing() =>
        Assert.DoesNotContain(
            PackCheck.Of(
                With(
                    InOrder(AdjusterKind.Clearance, AdjusterKind.Height) with
                    {
                        When = new() { Place = WorkPlace.OnBench },
                    },
                    InOrder(AdjusterKind.Height, AdjusterKind.Clearance) with
                    {
                        Id = new("other-order"),
                        When = new() { Place = WorkPlace.OnMachine },
                    }
                )
            ),
            one => one.Code == DiagnosticCode.RulesContradict
        );

    /// <summary>A rule that weighs more, or reaches further, says something of its own.</summary>
    [Fact]
    public void Of_RuleThatAsksMore_IsNotShadowed() =>
        Assert.DoesNotContain(
            PackCheck.Of(
                With(
                    Limit with
                    {
                        When = Limit.When with { Tasks = [ServiceTask.Lap] },
                    },
                    Limit with
                    {
                        Id = new("again"),
                        Severity = Severity.Advise,
                    }
                )
            ),
            one => one.Code == DiagnosticCode.Shadowed
        );

    /// <summary>Two thousand rules of one kind would be two million pairs: they are counted, and it is told.</summary>
    [Fact]
    public void Of_VeryManyRulesOfOneKind_TellsThatNotAllPairsWereLookedAt()
    {
        Rule[] rules =
        [
            .. Enumerable
                .Range(0, 2_000)
                .Select(at =>
                    Limit with
                    {
                        Id = new(FormattableString.Invariant($"r-{at}")),
                        When = new() { Areas = [FormattableString.Invariant($"a-{at}")] },
                    }
                ),
        ];

        Assert.Contains(
            PackCheck.Of(With(rules) with { Orders = [] }),
            one => one is { Code: DiagnosticCode.TooMuch, File: "base/pack.json" }
        );
    }

    [Fact]
    public void Of_VeryManyProblems_AreCountedBeyondAThousand()
    {
        var told = PackCheck.Of(
            Sound with
            {
                Cases =
                [
                    .. Sound.Cases,
                    .. Enumerable
                        .Range(0, 5_000)
                        .Select(at => new Placed<ExpectedVerdict>(
                            new("no-such-rule", Verdict.Met),
                            "base/b.cases.json",
                            FormattableString.Invariant($"/cases/{at}")
                        )),
                ],
            }
        );

        Assert.Equal(1_001, told.Length);
        Assert.Equal(
            "there are 4000 more remarks than are told one by one",
            Assert.Single(told, one => one.Code == DiagnosticCode.TooMuch).What
        );
    }

    private static Rule InOrder(params AdjusterKind[] order) =>
        Limit with
        {
            Id = new("order-of-work"),
            When = Applicability.Always,
            Check = new Check.OrderOfWork([.. order]),
        };

    private static RuleLibrary Dated(DateOnly? from, DateOnly? until)
    {
        var cited = Cited(PackLayer.Jurisdiction, "key-kept");
        var law = cited.Packs[^1];
        return cited with
        {
            Packs = cited.Packs.SetItem(
                cited.Packs.Length - 1,
                law with
                {
                    Pack = law.Pack with { From = from, Until = until },
                }
            ),
            Jurisdictions = [new("law", "site/site.json", "/jurisdictions/0")],
        };
    }
}
