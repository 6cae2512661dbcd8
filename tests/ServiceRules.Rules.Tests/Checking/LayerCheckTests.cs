using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Checking;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Checking.SoundLibrary;

namespace ServiceRules.Rules.Tests.Checking;

public class LayerCheckTests
{
    private static readonly Rule Held = Limit with
    {
        Unproven = UnprovenPolicy.SecondPerson,
        When = Limit.When with { Tasks = [ServiceTask.TouchUp] },
    };

    private static readonly Rule Firm = Held with { Unproven = UnprovenPolicy.Hold };

    private static readonly RuleDecision Wide = new(new DecisionRule.Guarded(1.5m));

    private static readonly Dictionary<string, (Rule Below, Rule Above, string? Loosened)> Pairs = new(
        StringComparer.Ordinal
    )
    {
        ["the same again"] = (Held, Held, null),
        ["weighs more"] = (Held, Held with { Severity = Severity.Stop }, null),
        ["weighs less"] = (Held, Held with { Severity = Severity.Advise }, "/severity"),
        ["holds what was released by a second person"] = (
            Held,
            Held with
            {
                Unproven = UnprovenPolicy.Hold,
            },
            null
        ),
        ["advises what was released by a second person"] = (
            Held,
            Held with
            {
                Unproven = UnprovenPolicy.Advise,
            },
            "/unproven"
        ),
        ["drops the guard"] = (Held, Held with { Decision = RuleDecision.Simple }, "/decision"),
        ["guards where there was none"] = (Firm with { Decision = RuleDecision.Simple }, Firm, null),
        ["guards by more"] = (Firm, Firm with { Decision = Wide }, null),
        ["guards by more and a second person lets the unproven out"] = (
            Held,
            Held with
            {
                Decision = Wide,
            },
            "/decision"
        ),
        ["guards where there was none and only advises what is unproven"] = (
            Held with
            {
                Unproven = UnprovenPolicy.Advise,
                Decision = RuleDecision.Simple,
            },
            Held with
            {
                Unproven = UnprovenPolicy.Advise,
            },
            "/decision"
        ),
        ["guards by more, now holding what is unproven"] = (Held, Firm with { Decision = Wide }, null),
        ["guards by more what only advises"] = (
            Held with
            {
                Severity = Severity.Advise,
                Unproven = UnprovenPolicy.Advise,
            },
            Held with
            {
                Severity = Severity.Advise,
                Unproven = UnprovenPolicy.Advise,
                Decision = Wide,
            },
            null
        ),
        ["guards by more what stops"] = (
            Firm with
            {
                Severity = Severity.Stop,
            },
            Firm with
            {
                Severity = Severity.Stop,
                Decision = Wide,
            },
            "/decision"
        ),
        ["guards by less"] = (Held, Held with { Decision = RuleDecision.GuardedOneSided }, "/decision"),
        ["guards to a risk where there was no guard"] = (
            Firm with
            {
                Decision = RuleDecision.Simple,
            },
            Firm with
            {
                Decision = new(new DecisionRule.GuardedToRisk(Probability.Of(0.05m))),
            },
            null
        ),
        ["guards to a smaller risk"] = (
            Firm with
            {
                Decision = new(new DecisionRule.GuardedToRisk(Probability.Of(0.05m))),
            },
            Firm with
            {
                Decision = new(new DecisionRule.GuardedToRisk(Probability.Of(0.01m))),
            },
            null
        ),
        ["guards to a larger risk"] = (
            Held with
            {
                Decision = new(new DecisionRule.GuardedToRisk(Probability.Of(0.01m))),
            },
            Held with
            {
                Decision = new(new DecisionRule.GuardedToRisk(Probability.Of(0.05m))),
            },
            "/decision"
        ),
        ["excludes the limit itself"] = (
            Held,
            Held with
            {
                Decision = RuleDecision.Guarded with { LimitItself = LimitItself.Excluded },
            },
            null
        ),
        ["permits the limit that was excluded"] = (
            Firm with
            {
                Decision = RuleDecision.Guarded with { LimitItself = LimitItself.Excluded },
            },
            Firm with
            {
                Decision = new(new DecisionRule.Guarded(2m)),
            },
            "/decision"
        ),
        ["decides by probability instead"] = (
            Held,
            Held with
            {
                Decision = RuleDecision.Probability,
            },
            "/decision"
        ),
        ["applies to another task too"] = (
            Held,
            Held with
            {
                When = Held.When with { Tasks = [ServiceTask.TouchUp, ServiceTask.Lap] },
            },
            null
        ),
        ["applies to every task"] = (Held, Held with { When = Held.When with { Tasks = [] } }, null),
        ["lets what was read at other tasks go"] = (
            Held with
            {
                When = Held.When with { OrRead = [MeasuredQuantity.HeightOfCut] },
            },
            Held,
            "/when"
        ),
        ["applies on one area only"] = (
            Held,
            Held with
            {
                When = Held.When with { Areas = ["golf-greens"] },
            },
            "/when"
        ),
        ["applies from next year"] = (
            Held,
            Held with
            {
                When = Held.When with { From = new(2027, 1, 1) },
            },
            "/when"
        ),
        ["asks at the stations only"] = (
            Held,
            Held with
            {
                Check = new Check.LimitOnQuantity(
                    MeasuredQuantity.Clearance,
                    LimitSource.Sheet,
                    CheckedPlaces.Stations
                ),
            },
            "/check"
        ),
        ["accepts another event as well"] = (
            Step,
            Step with
            {
                Check = new Check.RequiredEvent(
                    [TimelineEventKind.KeyRemoved, TimelineEventKind.TagApplied],
                    RequiredPer.Job,
                    RequiredWhen.BeforeWork,
                    MachineNeed.Key
                ),
            },
            "/check"
        ),
        ["asks it of every machine"] = (
            Step,
            Step with
            {
                Check = new Check.RequiredEvent(
                    [TimelineEventKind.KeyRemoved],
                    RequiredPer.Job,
                    RequiredWhen.BeforeWork,
                    null
                ),
            },
            null
        ),
        ["asks a longer order"] = (
            Ordered(AdjusterKind.Clearance, AdjusterKind.Height),
            Ordered(AdjusterKind.Bearings, AdjusterKind.Clearance, AdjusterKind.Height),
            null
        ),
        ["asks another order"] = (
            Ordered(AdjusterKind.Clearance, AdjusterKind.Height),
            Ordered(AdjusterKind.Height, AdjusterKind.Clearance),
            "/check"
        ),
        ["asks something else"] = (
            Held,
            Held with
            {
                Check = new Check.Freshness(MeasuredQuantity.Clearance),
            },
            "/check"
        ),
    };

    public static TheoryData<string> Names() => [.. Pairs.Keys];

    [Theory]
    [MemberData(nameof(Names))]
    public void Of_SiteRuleInPlaceOfABaseRule_MayTightenOnly(string name)
    {
        var (below, above, loosened) = Pairs[name];
        var told = PackCheck
            .Of(Replaced(below, above))
            .Where(one => one.Code == DiagnosticCode.Loosens)
            .Select(one => (one.File, one.Pointer));
        Assert.Equal(loosened is null ? [] : [("site/a.rules.json", "/rules/0" + loosened)], told);
    }

    private static Rule Ordered(params AdjusterKind[] order) =>
        Limit with
        {
            Check = new Check.OrderOfWork([.. order]),
        };
}
