using System.Globalization;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Measurement;
using ServiceRules.Rules.Model;

namespace ServiceRules.Reporting.Reports.Words;

/// <summary>How a rule decides a measured value, in words: a verdict without its decision rule cannot be checked.</summary>
public static class DecisionWords
{
    public static string Of(RuleDecision decision)
    {
        var by = decision.By switch
        {
            DecisionRule.Guarded { Factor: 1m } => "guarded by the full U",
            DecisionRule.Guarded guarded => string.Create(
                CultureInfo.InvariantCulture,
                $"guarded by {guarded.Factor:0.####} U"
            ),
            DecisionRule.GuardedToRisk guarded => $"guarded to a risk of {Percent(guarded.Risk)} at a limit",
            DecisionRule.Simple => "no guard, the reading alone decides",
            DecisionRule.ByProbability bounds =>
                $"by the chance that it is in: met from {Percent(bounds.MetFrom)}, not met up to {Percent(bounds.NotMetUpTo)}",
            _ => throw new ArgumentOutOfRangeException(nameof(decision), decision, null),
        };
        return decision.LimitItself == LimitItself.Excluded ? by + "; the limit itself is out" : by;
    }

    private static string Percent(Probability probability) =>
        string.Create(CultureInfo.InvariantCulture, $"{probability.Value * 100m:0.#######} %");
}
