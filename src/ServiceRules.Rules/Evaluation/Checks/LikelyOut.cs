using System.Collections.Immutable;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// What lengths put outside without proving it: it is more likely out than in, and so it is turned, and not only read again. Not where
/// the gauge could prove the limit nowhere, or something has to be read first.
/// </summary>
internal static class LikelyOut
{
    public static bool Is(CheckOutcome outcome, ImmutableArray<Obstacle> obstacles) =>
        outcome
            is {
                Verdict: Verdict.Unproven,
                Reason: FindingReason.InsideGuard or FindingReason.ProbabilityBetween
            }
        && obstacles.IsEmpty
        && outcome.Comparisons.Any(each => each.Value < each.LowerLimit || each.Value > each.UpperLimit);
}
