using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Quantities;
using ServiceRules.Rules.Model;

namespace ServiceRules.Oracle;

/// <summary>A length told from one or more spots: a value with a range of standard uncertainty, or an interval.</summary>
internal sealed record Amount(
    decimal? Value,
    double LeastDoubt,
    double GreatestDoubt,
    decimal? Low,
    decimal? High,
    UnitSystem System,
    bool IsFit
)
{
    /// <summary>Whether none of its doubt was found by few readings: then it is two deviations.</summary>
    private bool IsKnown { get; init; } = true;

    public static Amount Of(Spot spot) => Sum([(1, spot)]);

    /// <summary>A weighted sum of spots; the part that readings of one gauge share is added before it is squared.</summary>
    public static Amount Sum(IReadOnlyList<(decimal Weight, Spot Spot)> terms)
    {
        var system = terms[0].Spot.System;
        bool fit = terms.All(t => t.Spot.IsFit);
        if (terms.Any(t => t.Spot.IsInterval))
        {
            return new(null, 0, 0, End(terms, 1), End(terms, -1), system, fit);
        }

        double least = 0;
        double greatest = 0;
        List<(double Square, double Degrees)> found = [];
        List<(double Square, double Degrees)> mostFound = [];
        foreach (var (weight, spot) in terms)
        {
            double square = (double)(weight * weight);
            least += square * (spot.Own.Least - spot.Scatter.Least);
            greatest += square * (spot.Own.Greatest - spot.Scatter.Greatest);
        }

        foreach (var gauge in terms.GroupBy(t => t.Spot.Gauge))
        {
            // All its readings scatter by one and the same finding; its certificate is one and the same error in all.
            double degrees = gauge.Min(t => t.Spot.Scatter.Degrees);
            found.Add((gauge.Sum(t => (double)(t.Weight * t.Weight) * t.Spot.Scatter.Least), degrees));
            mostFound.Add((gauge.Sum(t => (double)(t.Weight * t.Weight) * t.Spot.Scatter.Greatest), degrees));
            double together = Math.Pow((double)gauge.Sum(t => t.Weight), 2);
            var certificate = gauge.First().Spot.Certificate;
            found.Add((together * certificate.Square, certificate.Degrees));
            mostFound.Add((together * certificate.Square, certificate.Degrees));
            least += together * gauge.Min(t => t.Spot.Shared - certificate.Square);
            greatest += together * gauge.Max(t => t.Spot.Shared - certificate.Square);
        }

        return new(
            terms.Sum(t => t.Weight * t.Spot.Value),
            Coverage.Expanded(least, found),
            Coverage.Expanded(greatest, mostFound),
            null,
            null,
            system,
            fit
        )
        {
            IsKnown = found.TrueForAll(error => error.Square == 0 || double.IsInfinity(error.Degrees)),
        };
    }

    public Possible Within(decimal? lower, decimal? upper, RuleDecision decision)
    {
        var possible = Plainly(lower, upper, decision);
        return IsFit || !possible.HasFlag(Possible.Met)
            ? possible
            : (possible & ~Possible.Met) | Possible.Unproven;
    }

    private Possible Plainly(decimal? lower, decimal? upper, RuleDecision decision)
    {
        if (Value is not { } value)
        {
            var certain = Inside(lower, upper);
            return
                certain is Possible.Unproven
                && decision.By is DecisionRule.ByProbability { Intervals: IntervalModel.Uniform } chances
                && High - Low is { } wide and > 0
                ? ByShare(Math.Max(0, Inner(lower, upper)) / wide, chances)
                : certain;
        }

        // No opinion where a quantile decides, or where a limit itself counts as out.
        if (
            decision.By is DecisionRule.ByProbability or DecisionRule.GuardedToRisk
            || decision.LimitItself is LimitItself.Excluded
        )
        {
            return IsKnown
                ? Likely(value, lower, upper, LeastDoubt / 2, decision.By)
                    | Likely(value, lower, upper, GreatestDoubt / 2, decision.By)
                : Possible.Judged;
        }

        double r = decision.By is DecisionRule.Guarded guarded ? (double)guarded.Factor : 0;
        decimal least = (decimal)(r * LeastDoubt);
        decimal greatest = r == 0 ? 0 : (decimal)(r * GreatestDoubt) + 0.0000004m;
        return Decided(value, lower, upper, least) | Decided(value, lower, upper, greatest);
    }

    private decimal Inner(decimal? lower, decimal? upper) =>
        Math.Min(High!.Value, upper ?? High.Value) - Math.Max(Low!.Value, lower ?? Low.Value);

    /// <summary>Every length of the interval as likely as every other: the share of it that lies inside.</summary>
    private static Possible ByShare(decimal share, DecisionRule.ByProbability chances) =>
        share >= chances.MetFrom.Value ? Possible.Met
        : share <= chances.NotMetUpTo.Value ? Possible.NotMet
        : Possible.Unproven;

    /// <summary>By how probable it is that the true length lies inside; unless stated met from 0.95 up, not met from 0.05 down.</summary>
    private static Possible Likely(decimal value, decimal? lower, decimal? upper, double u, DecisionRule by)
    {
        var (from, upTo) = by is DecisionRule.ByProbability chances
            ? ((double)chances.MetFrom.Value, (double)chances.NotMetUpTo.Value)
            : (0.95, 0.05);
        if (u == 0)
        {
            return value < lower || value > upper ? Possible.NotMet : Possible.Met;
        }

        double low = lower is { } l ? (double)(l - value) / u : double.NegativeInfinity;
        double high = upper is { } h ? (double)(h - value) / u : double.PositiveInfinity;
        double inside = Bell(low, high);
        // Near a bound the summing of strips is not to be trusted.
        return (inside >= from - Strips ? Possible.Met : Possible.None)
            | (inside <= upTo + Strips ? Possible.NotMet : Possible.None)
            | (inside > upTo - Strips && inside < from + Strips ? Possible.Unproven : Possible.None);
    }

    private const double Strips = 0.0005;

    /// <summary>The area under the bell curve, as ten thousand strips between eight deviations either way.</summary>
    private static double Bell(double from, double to)
    {
        const int strips = 10_000;
        const double most = 8;
        double start = Math.Max(from, -most);
        double end = Math.Min(to, most);
        double wide = (end - start) / strips;
        double sum = 0;
        for (int i = 0; wide > 0 && i < strips; i++)
        {
            double z = start + ((i + 0.5) * wide);
            sum += Math.Exp(-z * z / 2) * wide;
        }

        return sum / Math.Sqrt(2 * Math.PI);
    }

    private static Possible Decided(decimal value, decimal? lower, decimal? upper, decimal guard) =>
        value < lower - guard || value > upper + guard ? Possible.NotMet
        : (lower is null || value >= lower + guard) && (upper is null || value <= upper - guard)
            ? Possible.Met
        : Possible.Unproven;

    private Possible Inside(decimal? lower, decimal? upper) =>
        High <= lower || Low > upper ? Possible.NotMet
        : (lower is null || Low >= lower) && (upper is null || High <= upper) ? Possible.Met
        : Possible.Unproven;

    private static decimal? End(IReadOnlyList<(decimal Weight, Spot Spot)> terms, int which)
    {
        decimal sum = 0;
        foreach (var (weight, spot) in terms)
        {
            if (weight == 0)
            {
                continue;
            }

            decimal half = spot.IsInterval ? 0 : (decimal)Of(spot).GreatestDoubt;
            decimal? low = spot.IsInterval ? spot.Low : spot.Value - half;
            decimal? high = spot.IsInterval ? spot.High : spot.Value + half;
            if ((weight > 0 == which > 0 ? low : high) is not { } end)
            {
                return null;
            }

            sum += weight * end;
        }

        return sum;
    }
}
