using ServiceRules.Domain.Conformity;

namespace ServiceRules.Rules.Model;

/// <summary>How a measured value is decided, and whether a limit itself is permitted.</summary>
/// <param name="By">The decision rule.</param>
/// <param name="LimitItself">Equality at a limit; permitted unless the rule says otherwise.</param>
public sealed record RuleDecision(DecisionRule By, LimitItself LimitItself = LimitItself.Permitted)
{
    /// <summary>Guarded by the full expanded uncertainty.</summary>
    public static RuleDecision Guarded { get; } = new(DecisionRule.FullGuard);

    /// <summary>Guarded by 0.825 U.</summary>
    public static RuleDecision GuardedOneSided { get; } = new(DecisionRule.NinetyFivePercentGuard);

    /// <summary>Simple acceptance: no guard.</summary>
    public static RuleDecision Simple { get; } = new(DecisionRule.Unguarded);

    /// <summary>By probability of conformance, 0.95 and 0.05.</summary>
    public static RuleDecision Probability { get; } = new(DecisionRule.NinetyFiveToFive);
}
