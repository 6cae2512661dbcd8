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
            (MeasuredValue measured, DecisionRule.Guarded guarded) => ByGuard(
                zone,
                measured,
                measured.Expanded.Value * guarded.Factor,
                rule
            ),
            (MeasuredValue measured, DecisionRule.GuardedToRisk target) => ByGuard(
                zone,
                measured,
                Length.FromMillimetres(measured.Errors.Largest(target.Quantile)),
                rule
            ),
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
        Length guard,
        DecisionRule rule
    )
    {
        var acceptance = zone.DrawnIn(guard);
        // A widened zone is never empty.
        var widened = zone.DrawnIn(-guard)!;
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
        var (verdict, reason) = Chosen(ConformanceProbability.Within(zone, measured), rule);
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
            ConformanceProbability =
                ConformanceProbability.Within(zone, measured) is var within && verdict is Verdict.NotMet
                    ? within.Most
                    : within.Least,
            Margin = zone.MarginOf(measured.Value),
        };

    private static ConformityResult ByInterval(ToleranceZone zone, LengthInterval interval, DecisionRule rule)
    {
        var certain = ConformanceProbability.Of(zone, interval);
        var guaranteed = Guaranteed(zone, interval);
        var (verdict, reason) =
            certain.Most == Probability.Zero ? (Verdict.NotMet, ConformityReason.IntervalOutside)
            : certain.Least == Probability.One ? (Verdict.Met, ConformityReason.IntervalInside)
            : guaranteed is null ? (Verdict.Unproven, ConformityReason.IntervalUnbounded)
            : (Verdict.Unproven, ConformityReason.IntervalStraddlesLimit);
        var result = new ConformityResult
        {
            Verdict = verdict,
            Reason = reason,
            Zone = zone,
            Knowledge = interval,
            Rule = rule,
            ConformanceProbability = certain.Settled,
            Margin = verdict is Verdict.NotMet ? Excess(zone, interval) : guaranteed,
        };
        return
            verdict is Verdict.Unproven
            && rule is DecisionRule.ByProbability { Intervals: IntervalModel.Uniform } bounds
            && ConformanceProbability.Uniform(zone, interval) is { } probability
            ? ByChance(result, probability, bounds)
            : result;
    }

    private static ConformityResult ByChance(
        ConformityResult result,
        Probability probability,
        DecisionRule.ByProbability bounds
    )
    {
        var (verdict, reason) = Chosen(new(probability, probability), bounds);
        return result with { Verdict = verdict, Reason = reason, ConformanceProbability = probability };
    }

    private static (Verdict, ConformityReason) Chosen(
        ProbabilityRange probability,
        DecisionRule.ByProbability bounds
    ) =>
        probability.Least >= bounds.MetFrom ? (Verdict.Met, ConformityReason.ProbablyInside)
        : probability.Most <= bounds.NotMetUpTo ? (Verdict.NotMet, ConformityReason.ProbablyOutside)
        : (Verdict.Unproven, ConformityReason.ProbabilityBetweenBounds);

    /// <summary>The margin (zero or negative) of an interval that lies outside: its nearest end.</summary>
    private static Length Excess(ToleranceZone zone, LengthInterval interval)
    {
        var above = zone.Upper - interval.Lower?.Value;
        return above <= Length.Zero ? above.Value : interval.Upper!.Value.Value - zone.Lower!.Value;
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
