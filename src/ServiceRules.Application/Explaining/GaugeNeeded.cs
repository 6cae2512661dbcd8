using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Checks;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Explaining;

/// <summary>How good a gauge has to be to prove a limit at all, whatever it reads.</summary>
public static class GaugeNeeded
{
    /// <summary>
    /// The gauge of a comparison against its limit under a decision; null of what is no measured value, or has no limit.
    /// </summary>
    /// <param name="decision">How the rule decides.</param>
    /// <param name="comparison">What was compared, with its budget.</param>
    public static GaugeFitness? Of(RuleDecision decision, Comparison comparison)
    {
        ArgumentNullException.ThrowIfNull(decision);
        ArgumentNullException.ThrowIfNull(comparison);
        if (comparison.Budget is not { } budget || ZoneOf(comparison) is not { } limits)
        {
            return null;
        }

        var zone = limits.With(decision.LimitItself) ?? limits;
        return GaugeFitness.Judge(
            zone,
            budget.Errors,
            decision.By,
            comparison.Target,
            // A bound outside the zone says nothing of how far inside a value may lie.
            NaturalBounds.Of(comparison.Quantity)
                is { } bound
            && zone.Contains(bound)
                ? bound
                : null
        );
    }

    private static ToleranceZone? ZoneOf(Comparison comparison) =>
        (comparison.LowerLimit, comparison.UpperLimit) switch
        {
            ({ } lower, { } upper) => ToleranceZone.TryCreate(lower, upper, out var zone) ? zone : null,
            ({ } lower, null) => ToleranceZone.AtLeast(lower),
            (null, { } upper) => ToleranceZone.AtMost(upper),
            _ => null,
        };
}
