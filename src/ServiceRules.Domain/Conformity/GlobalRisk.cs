using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Statistics;

namespace ServiceRules.Domain.Conformity;

/// <summary>
/// The risks of judging with an uncertain gauge, over all that a declared process delivers (JCGM 106:2012, 9.5): with g₀ the
/// density of the process, the consumer's risk is ∫ g₀(y)·P(accepted | y) dy over y outside the limits, the
/// producer's ∫ g₀(y)·P(refused | y) dy over y inside them, a reading of y being normal about y with the gauge's u.
/// </summary>
public sealed record GlobalRisk
{
    // Beyond these many deviations a normal distribution keeps less than 1e-18.
    private const int ReachOfReading = 9;
    private const int ReachOfNormal = 10;

    // Panels above the mean: a gamma distribution of shape 1 or more keeps less than 1e-18 beyond 44 deviations.
    private const int PanelsAboveTheMean = 45;

    private GlobalRisk(double inLimits, double consumers, double producers)
    {
        InLimits = Probability.FromComputed(inLimits);
        Consumers = Probability.FromComputed(consumers);
        Producers = Probability.FromComputed(producers);
        var accepted = inLimits - producers + consumers;
        Accepted = Probability.FromComputed(accepted);
        OutAmongAccepted = Probability.FromComputed(accepted > 0 ? consumers / accepted : 0);
    }

    /// <summary>The share that the process delivers inside the limits.</summary>
    public Probability InLimits { get; }

    /// <summary>The share that is accepted, rightly or not.</summary>
    public Probability Accepted { get; }

    /// <summary>The share that is accepted though it is out: global consumer's risk.</summary>
    public Probability Consumers { get; }

    /// <summary>The share that is not accepted though it is in: global producer's risk.</summary>
    public Probability Producers { get; }

    /// <summary>Of what is accepted, the share that is out.</summary>
    public Probability OutAmongAccepted { get; }

    /// <summary>The risks of accepting what reads inside the acceptance zone.</summary>
    /// <param name="limits">What is permitted.</param>
    /// <param name="acceptance">What is accepted: the limits drawn in by a guard, or the limits themselves.</param>
    /// <param name="process">What the process delivers.</param>
    /// <param name="gauge">Standard uncertainty of one reading.</param>
    public static GlobalRisk Of(
        ToleranceZone limits,
        ToleranceZone acceptance,
        ProcessSpread process,
        StandardUncertainty gauge
    )
    {
        var edges = Edges(limits, acceptance, process, gauge);
        var consumers = 0.0;
        var producers = 0.0;
        foreach (var (from, until) in edges.Zip(edges.Skip(1)))
        {
            var isInside = Inside(limits, (from + until) / 2);
            var share = Share(
                from,
                until,
                y => process.Density(y) * Judged(acceptance, gauge, y, accepted: !isInside)
            );
            if (isInside)
            {
                producers += share;
            }
            else
            {
                consumers += share;
            }
        }

        return new(process.Within(limits), consumers, producers);
    }

    /// <summary>The integral over one panel; a gamma distribution's begins at zero.</summary>
    private static double Share(double from, double until, Func<double, double> density) =>
        from == 0 ? Quadrature.FromZero(until, density) : Quadrature.Over(from, until, density);

    /// <summary>Ends of panels no wider than what changes there: the process, and the reading about an acceptance limit.</summary>
    private static List<double> Edges(
        ToleranceZone limits,
        ToleranceZone acceptance,
        ProcessSpread process,
        StandardUncertainty gauge
    )
    {
        var mean = (double)process.Mean.Millimetres;
        var deviation = (double)process.StandardDeviation.Millimetres;
        var reach = ReachOfReading * gauge.Millimetres;
        var least = process.IsGamma ? 0 : double.NegativeInfinity;
        IEnumerable<double> edges =
        [
            .. Ends(limits),
            .. Ends(acceptance).SelectMany(end => new[] { end - reach, end, end + reach }),
            .. Enumerable
                .Range(-ReachOfNormal, ReachOfNormal + PanelsAboveTheMean)
                .Select(panel => mean + (panel * deviation)),
        ];
        return [.. edges.Select(edge => Math.Max(edge, least)).Distinct().Order()];
    }

    private static IEnumerable<double> Ends(ToleranceZone zone)
    {
        if (zone.Lower is { } lower)
        {
            yield return (double)lower.Millimetres;
        }

        if (zone.Upper is { } upper)
        {
            yield return (double)upper.Millimetres;
        }
    }

    private static bool Inside(ToleranceZone zone, double value) =>
        zone.Contains(Length.FromMillimetres((decimal)value));

    /// <summary>The chance that a true value y reads inside the acceptance zone, or outside it.</summary>
    private static double Judged(ToleranceZone acceptance, StandardUncertainty gauge, double y, bool accepted)
    {
        if (gauge == StandardUncertainty.Zero)
        {
            return Inside(acceptance, y) == accepted ? 1 : 0;
        }

        var normal = new StandardDistribution(DegreesOfFreedom.Infinite);
        var below = acceptance.Lower is { } lower
            ? normal.UpperTail((y - (double)lower.Millimetres) / gauge.Millimetres)
            : 0;
        var above = acceptance.Upper is { } upper
            ? normal.UpperTail(((double)upper.Millimetres - y) / gauge.Millimetres)
            : 0;
        return accepted ? Math.Max(0, 1 - below - above) : below + above;
    }
}
