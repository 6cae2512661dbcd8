using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Statistics;

namespace ServiceRules.Domain.Wear;

/// <summary>
/// The line of Theil and Sen through readings over hours: its slope is the median of the slopes of all pairs, its level
/// the median of what is left, so that one bad reading in four does not move it far. F34 (standard statistics; H. Theil,
/// Proceedings of the Royal Netherlands Academy of Sciences 53 (1950); P. K. Sen, Journal of the American Statistical
/// Association 63 (1968) 1379).
/// </summary>
public sealed record RobustTrend
{
    private const int FewestReadings = 3;

    private static readonly Probability Usual = Probability.Of(0.95m);

    private readonly decimal intercept;

    private RobustTrend(TheilSenLine line)
    {
        intercept = line.Intercept;
        Slope = WearRate.FromMillimetresPerHour(line.Slope);
        Least = WearRate.FromMillimetresPerHour(line.Least);
        Greatest = WearRate.FromMillimetresPerHour(line.Greatest);
        Level = line.Level;
        Readings = line.Count;
    }

    /// <summary>The rate of change: negative where the value shrinks.</summary>
    public WearRate Slope { get; }

    /// <summary>The least (most negative) rate of the band.</summary>
    public WearRate Least { get; }

    /// <summary>The greatest rate of the band.</summary>
    public WearRate Greatest { get; }

    /// <summary>How much the band covers: at least what was asked, or less where so few readings cannot give it.</summary>
    public Probability Level { get; }

    /// <summary>Different hours at which there was a reading.</summary>
    public int Readings { get; }

    /// <summary>The last hours with a reading.</summary>
    public required OperatingHours Last { get; init; }

    /// <summary>The line through readings, with a band of 95 %.</summary>
    /// <param name="points">In any order; readings at the same hours count as one, their mean.</param>
    /// <returns>Null with fewer than three different hours.</returns>
    public static RobustTrend? Through(IEnumerable<WearPoint> points) => Through(points, Usual);

    /// <summary>The line through readings.</summary>
    /// <param name="points">In any order; readings at the same hours count as one, their mean.</param>
    /// <param name="level">What the band should cover.</param>
    /// <returns>Null with fewer than three different hours.</returns>
    public static RobustTrend? Through(IEnumerable<WearPoint> points, Probability level)
    {
        ArgumentNullException.ThrowIfNull(points);
        var read = WearReadings.ByHours(points);
        return read.Length < FewestReadings
            ? null
            : new(
                TheilSenLine.Through(
                    [.. read.Select(point => (point.At.Hours, point.Value.Millimetres))],
                    level
                )
            )
            {
                Last = read[^1].At,
            };
    }

    /// <summary>The line at hours.</summary>
    public Length At(OperatingHours hours) =>
        Rounding.ToLength(intercept + (Slope.MillimetresPerHour * hours.Hours));

    /// <summary>
    /// When the line comes to a limit: what is left at the last hours over the slope, and over the slopes of the band.
    /// </summary>
    public WearForecast Reach(Length limit, LimitSide side)
    {
        var towards = side is LimitSide.Upper ? 1 : -1;
        var left = (limit - At(Last)) * towards;
        var rate = Slope.MillimetresPerHour * towards;
        var fastest = (towards > 0 ? Greatest : Least).MillimetresPerHour * towards;
        var slowest = (towards > 0 ? Least : Greatest).MillimetresPerHour * towards;
        return left <= Length.Zero ? new WearForecast.Reached(-left)
            : rate <= 0 || Hours(left, rate) is not { } best ? new WearForecast.NotApproaching()
            : new WearForecast.Reaches(
                best,
                Hours(left, fastest),
                slowest > 0 ? Hours(left, slowest) : null,
                Level
            );
    }

    /// <summary>None where it is too far to be told from never.</summary>
    private static RunningTime? Hours(Length left, decimal rate) =>
        DecimalArithmetic.Quotient(left.Millimetres, rate) is { } hours ? RunningTime.FromHours(hours) : null;
}
