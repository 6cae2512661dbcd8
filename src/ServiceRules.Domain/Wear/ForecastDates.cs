using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Wear;

/// <summary>The days on which hours will have been run, at a weekly use.</summary>
/// <param name="On">The day by the line itself.</param>
/// <param name="Earliest">The earliest day within the band; none: not bounded.</param>
/// <param name="Latest">The latest day within the band; none: not bounded, or beyond the year 2200.</param>
public sealed record ForecastDates(DateOnly On, DateOnly? Earliest, DateOnly? Latest)
{
    private static readonly DateOnly LastDay = new(2200, 12, 31);

    /// <summary>Puts days to a forecast: last day + hours left / hours in a week. F34.</summary>
    /// <param name="forecast">Hours left.</param>
    /// <param name="from">The day of the last reading.</param>
    /// <param name="perWeek">Hours run in a week.</param>
    /// <returns>Null when nothing is run, or the day lies beyond the year 2200.</returns>
    public static ForecastDates? Of(WearForecast.Reaches forecast, DateOnly from, RunningTime perWeek)
    {
        ArgumentNullException.ThrowIfNull(forecast);
        return perWeek <= RunningTime.Zero || Day(forecast.Left) is not { } day
            ? null
            : new(day, Day(forecast.Earliest), Day(forecast.Latest, decimal.Ceiling));

        // A band is rounded outward: its last day is the one that has begun when the hours are run.
        DateOnly? Day(RunningTime? left, Func<decimal, decimal>? rounded = null) =>
            left is { } hours
            && (rounded ?? decimal.Floor)(hours.Hours / perWeek.Hours * 7m) is var days
            && days <= LastDay.DayNumber - from.DayNumber
                ? from.AddDays((int)days)
                : null;
    }
}
