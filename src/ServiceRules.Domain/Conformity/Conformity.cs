using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Domain.Conformity;

/// <summary>Decides whether what is known of a length proves a limit kept, broken, or neither.</summary>
public static class Conformity
{
    /// <summary>
    /// The verdict of one rule on one limit. Values, limits and guards are compared exactly in decimal.
    /// </summary>
    public static ConformityResult Decide(ToleranceZone zone, Knowledge knowledge, DecisionRule rule) =>
        (knowledge, rule) switch
        {
            (LengthInterval interval, _) => ByInterval(zone, interval, rule),
            (MeasuredValue measured, DecisionRule.Guarded guarded) => ByGuard(zone, measured, guarded),
            (MeasuredValue measured, DecisionRule.ByProbability bounds) => ByProbability(
                zone,
                measured,
                bounds
            ),
            (MeasuredValue measured, DecisionRule.Simple) => BySimpleAcceptance(zone, measured, rule),
            _ => throw new InvalidOperationException("knowledge and decision rules are closed families"),
        };

    private static ConformityResult ByGuard(
        ToleranceZone zone,
        MeasuredValue measured,
        DecisionRule.Guarded rule
    )
    {
        var guard = measured.Expanded.Value * rule.Factor;
        var acceptance = zone.DrawnIn(guard);
        var widened =
            zone.DrawnIn(-guard) ?? throw new InvalidOperationException("a widened zone is never empty");
        var (verdict, reason) =
            acceptance?.Contains(measured.Value) == true
                ? (Verdict.Met, ConformityReason.InsideAcceptanceZone)
            : !widened.Contains(measured.Value) ? (Verdict.NotMet, ConformityReason.OutsideGuardedLimits)
            : acceptance is null ? (Verdict.Unproven, ConformityReason.EmptyAcceptanceZone)
            : zone.Contains(measured.Value) ? (Verdict.Unproven, ConformityReason.InsideGuardBand)
            : (Verdict.Unproven, ConformityReason.OutsideWithinGuard);
        return Measured(zone, measured, rule, verdict, reason) with
        {
            Guard = guard,
            AcceptanceZone = acceptance,
        };
    }

    private static ConformityResult ByProbability(
        ToleranceZone zone,
        MeasuredValue measured,
        DecisionRule.ByProbability rule
    )
    {
        var probability = ConformanceProbability.Of(zone, measured);
        var (verdict, reason) =
            probability >= rule.MetFrom ? (Verdict.Met, ConformityReason.ProbablyInside)
            : probability <= rule.NotMetUpTo ? (Verdict.NotMet, ConformityReason.ProbablyOutside)
            : (Verdict.Unproven, ConformityReason.ProbabilityBetweenBounds);
        return Measured(zone, measured, rule, verdict, reason);
    }

    private static ConformityResult BySimpleAcceptance(
        ToleranceZone zone,
        MeasuredValue measured,
        DecisionRule rule
    )
    {
        var (verdict, reason) = zone.Contains(measured.Value)
            ? (Verdict.Met, ConformityReason.InsideAcceptanceZone)
            : (Verdict.NotMet, ConformityReason.OutsideGuardedLimits);
        return Measured(zone, measured, rule, verdict, reason) with { AcceptanceZone = zone };
    }

    private static ConformityResult Measured(
        ToleranceZone zone,
        MeasuredValue measured,
        DecisionRule rule,
        Verdict verdict,
        ConformityReason reason
    ) =>
        new()
        {
            Verdict = verdict,
            Reason = reason,
            Zone = zone,
            Knowledge = measured,
            Rule = rule,
            Expanded = measured.Expanded,
            ConformanceProbability = ConformanceProbability.Of(zone, measured),
            Margin = zone.MarginOf(measured.Value),
        };

    private static ConformityResult ByInterval(ToleranceZone zone, LengthInterval interval, DecisionRule rule)
    {
        var excess = Excess(zone, interval);
        var guaranteed = Guaranteed(zone, interval);
        var (verdict, reason, probability) =
            excess is not null ? (Verdict.NotMet, ConformityReason.IntervalOutside, Probability.Zero)
            : guaranteed >= Length.Zero ? (Verdict.Met, ConformityReason.IntervalInside, Probability.One)
            : guaranteed is null ? (Verdict.Unproven, ConformityReason.IntervalUnbounded, null)
            : (Verdict.Unproven, ConformityReason.IntervalStraddlesLimit, (Probability?)null);
        return new()
        {
            Verdict = verdict,
            Reason = reason,
            Zone = zone,
            Knowledge = interval,
            Rule = rule,
            ConformanceProbability = probability,
            Margin = excess ?? guaranteed,
        };
    }

    /// <summary>
    /// The margin (zero or negative) when no possible value is permitted: the interval begins beyond the upper
    /// limit or ends before the lower one; an open end on the limit itself is already beyond it.
    /// </summary>
    private static Length? Excess(ToleranceZone zone, LengthInterval interval)
    {
        if (zone.Upper is { } upper && interval.Lower is { } from)
        {
            var beyond = from.Value > upper || (from.Value == upper && !from.IsClosed);
            if (beyond)
            {
                return upper - from.Value;
            }
        }

        if (zone.Lower is { } lower && interval.Upper is { } to)
        {
            var before = to.Value < lower || (to.Value == lower && !to.IsClosed);
            if (before)
            {
                return to.Value - lower;
            }
        }

        return null;
    }

    /// <summary>The least margin over all possible values; none when an end that matters is missing.</summary>
    private static Length? Guaranteed(ToleranceZone zone, LengthInterval interval)
    {
        Length? below = zone.Lower is { } lower ? interval.Lower?.Value - lower : null;
        Length? above = zone.Upper is { } upper ? upper - interval.Upper?.Value : null;
        var unbounded =
            (zone.Lower is not null && below is null) || (zone.Upper is not null && above is null);
        return unbounded ? null
            : below is { } b && above is { } a ? Length.Min(b, a)
            : below ?? above;
    }
}
