using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Measurement;
using ServiceRules.Reporting.Reports.Words;
using ServiceRules.Rules.Model;

namespace ServiceRules.Reporting.Tests.Reports.Words;

public sealed class DecisionWordsTests
{
    public static TheoryData<RuleDecision, string> Decisions() =>
        new()
        {
            { RuleDecision.Guarded, "guarded by the full U" },
            { RuleDecision.GuardedOneSided, "guarded by 0.825 U" },
            { RuleDecision.Simple, "no guard, the reading alone decides" },
            { RuleDecision.Probability, "by the chance that it is in: met from 95 %, not met up to 5 %" },
            {
                new(new DecisionRule.GuardedToRisk(Probability.Of(0.025m)), LimitItself.Excluded),
                "guarded to a risk of 2.5 % at a limit; the limit itself is out"
            },
        };

    [Theory]
    [MemberData(nameof(Decisions))]
    public void Of_EveryDecision_IsSaidInWords(RuleDecision decision, string expected) =>
        Assert.Equal(expected, DecisionWords.Of(decision));
}
