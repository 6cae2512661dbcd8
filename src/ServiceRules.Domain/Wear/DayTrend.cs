using System.Collections.Immutable;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Wear;

/// <summary>
/// The line of Theil and Sen through lengths read on days: whether something that is not run by the hour, such as the zero of
/// a gauge, moves over a season. As <see cref="RobustTrend"/>, with days in place of hours.
/// </summary>
public sealed record DayTrend
{
    private const int FewestDays = 3;

    // Two years of daily checks are compared pair by pair.
    private const int MostDays = 300;

    private static readonly Probability Usual = Probability.Of(0.95m);

    private DayTrend(TheilSenLine line, DateOnly first, DateOnly last)
    {
        Moved = Rounding.ToLength(line.Slope * (last.DayNumber - first.DayNumber));
        Moves = line.Least > 0 || line.Greatest < 0;
        Level = line.Level;
    }

    /// <summary>How far the line goes from the first day to the last.</summary>
    public Length Moved { get; }

    /// <summary>Whether the band of its slope leaves standing still out.</summary>
    public bool Moves { get; }

    /// <summary>How much that band covers: 95 %, or less where so few days cannot give it.</summary>
    public Probability Level { get; }

    /// <summary>The line through readings, with a band of 95 %.</summary>
    /// <param name="readings">In any order; those of one day count as one, their mean; of more than 300 days the last.</param>
    /// <returns>Null with fewer than three different days.</returns>
    public static DayTrend? Through(IEnumerable<(DateOnly Day, Length Value)> readings)
    {
        ArgumentNullException.ThrowIfNull(readings);
        ImmutableArray<(DateOnly Day, decimal Value)> read =
        [
            .. readings
                .GroupBy(reading => reading.Day)
                .OrderBy(day => day.Key)
                .Select(day =>
                    (day.Key, day.Select(reading => reading.Value.Millimetres).Order().Sum() / day.Count())
                )
                .TakeLast(MostDays),
        ];
        return read.Length < FewestDays
            ? null
            : new(
                TheilSenLine.Through([.. read.Select(one => ((decimal)one.Day.DayNumber, one.Value))], Usual),
                read[0].Day,
                read[^1].Day
            );
    }
}
