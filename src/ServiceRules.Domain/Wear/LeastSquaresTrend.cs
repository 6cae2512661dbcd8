using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Statistics;

namespace ServiceRules.Domain.Wear;

/// <summary>
/// The least-squares line through readings over hours, with the interval in which a further reading is to be expected and
/// the hours at which the line comes to a limit. Beside <see cref="RobustTrend"/>: sharper where every reading is good, misled
/// by a single bad one. Ordinary regression; the band of the hours is Fieller's. F34 (standard statistics).
/// </summary>
public sealed class LeastSquaresTrend
{
    private readonly RegressionLine line;

    private LeastSquaresTrend(RegressionLine line) => this.line = line;

    /// <summary>How much the intervals cover.</summary>
    public static Probability Level { get; } = Probability.Of(0.95m);

    /// <summary>The rate of change: negative where the value shrinks.</summary>
    public WearRate Slope => WearRate.FromMillimetresPerHour(line.Slope);

    /// <summary>Standard deviation of one reading about the line, on two fewer degrees of freedom than readings.</summary>
    public Length Scatter => Rounding.ToLength(line.ResidualStandardDeviation);

    /// <summary>How many readings it was drawn through.</summary>
    public int Readings => line.Count;

    /// <summary>Whether the readings bend by more than they scatter: then a straight line foretells wrongly.</summary>
    public bool IsBent => line.ShowsBend(CoverageLevel.NinetyFive);

    /// <summary>The last hours with a reading.</summary>
    public required OperatingHours Last { get; init; }

    /// <summary>The line through readings.</summary>
    /// <param name="points">In any order.</param>
    /// <returns>Null with fewer than three readings, or when all were taken at nearly the same hours.</returns>
    public static LeastSquaresTrend? Through(IEnumerable<WearPoint> points)
    {
        ArgumentNullException.ThrowIfNull(points);
        var ordered = points.OrderBy(point => point.At).ThenBy(point => point.Value).ToList();
        return
            RegressionLine.Through([.. ordered.Select(point => (point.At.Hours, point.Value.Millimetres))])
                is { } line
            ? new(line) { Last = ordered[^1].At }
            : null;
    }

    /// <summary>The line at hours.</summary>
    public Length At(OperatingHours hours) => Rounding.ToLength(line.At(hours.Hours));

    /// <summary>What a single further reading at these hours is foretold to be: ŷ ± t·s·√(1 + 1/n + (x - x̄)²/Sxx).</summary>
    public PredictionInterval Predict(OperatingHours hours)
    {
        var value = At(hours);
        var half = Rounding.ToLength(line.PredictionHalfWidth(hours.Hours, CoverageLevel.NinetyFive));
        return new(value, value - half, value + half);
    }

    /// <summary>
    /// When the line comes to a limit (inverse prediction). Where the readings do not show at 95 % that anything wears, the
    /// ends of the band are open.
    /// </summary>
    public WearForecast Reach(Length limit, LimitSide side)
    {
        var towards = side is LimitSide.Upper ? 1 : -1;
        var left = (limit - At(Last)) * towards;
        if (left <= Length.Zero)
        {
            return new WearForecast.Reached(-left);
        }

        if (
            line.Slope * towards <= 0
            || line.ReachOf(limit.Millimetres, CoverageLevel.NinetyFive) is not { } reach
        )
        {
            return new WearForecast.NotApproaching();
        }

        return new WearForecast.Reaches(
            FromLast(reach.Best),
            reach.From is { } from ? FromLast(from) : null,
            reach.Until is { } until ? FromLast(until) : null,
            Level
        );
    }

    /// <summary>Hours from the last reading; what lies before it is none.</summary>
    private RunningTime FromLast(decimal hours) => RunningTime.FromHours(Math.Max(0m, hours - Last.Hours));
}
