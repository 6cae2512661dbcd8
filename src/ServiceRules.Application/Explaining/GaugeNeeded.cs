using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
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
    /// <param name="rule">How it decides, and what it checks.</param>
    /// <param name="comparison">What was compared, with its budget.</param>
    public static GaugeFitness? Of(Rule rule, Comparison comparison)
    {
        ArgumentNullException.ThrowIfNull(rule);
        ArgumentNullException.ThrowIfNull(comparison);
        if (comparison.Budget is not { } budget || ZoneOf(comparison) is not { } limits)
        {
            return null;
        }

        var zone = limits.With(rule.Decision.LimitItself) ?? limits;
        return GaugeFitness.Judge(
            zone,
            budget.Errors,
            rule.Decision.By,
            comparison.Target,
            // A bound outside the zone says nothing of how far inside a value may lie.
            BoundOf(rule.Check, comparison.Quantity) is { } bound
            && zone.Contains(bound)
                ? bound
                : null
        );
    }

    /// <summary>What is out of parallel is so by nothing or more, whatever is measured.</summary>
    private static Length? BoundOf(Check check, MeasuredQuantity quantity) =>
        check is Check.Parallelism ? Length.Zero : NaturalBounds.Of(quantity);

    private static ToleranceZone? ZoneOf(Comparison comparison) =>
        (comparison.LowerLimit, comparison.UpperLimit) switch
        {
            ({ } lower, { } upper) => ToleranceZone.TryCreate(lower, upper, out var zone) ? zone : null,
            ({ } lower, null) => ToleranceZone.AtLeast(lower),
            (null, { } upper) => ToleranceZone.AtMost(upper),
            _ => null,
        };
}
