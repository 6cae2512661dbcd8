using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// What lengths put outside without proving it: it is more likely out than in, and so it is turned, and not only read again. Not where
/// the gauge could prove the limit nowhere, or something has to be read first.
/// </summary>
internal static class LikelyOut
{
    // What is told as the limit itself is not beyond it, whatever its further digits are in one unit or another.
    private static readonly Length Told = Length.FromMillimetres(0.0001m);

    public static bool Is(CheckOutcome outcome, ImmutableArray<Obstacle> obstacles) =>
        outcome
            is {
                Verdict: Verdict.Unproven,
                Reason: FindingReason.InsideGuard or FindingReason.ProbabilityBetween
            }
        && obstacles.IsEmpty
        && outcome.Comparisons.Any(each =>
            each.Value + Told < each.LowerLimit || each.Value - Told > each.UpperLimit
        );
}
