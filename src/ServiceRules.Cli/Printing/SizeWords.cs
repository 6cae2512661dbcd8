using System.Globalization;
using ServiceRules.Application.History;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Wear;
using ServiceRules.Reporting.Reports.Words;

namespace ServiceRules.Cli.Printing;

/// <summary>A wearing size of a part, in words: where it stands, and when it comes to its limit.</summary>
internal static class SizeWords
{
    private const int HoursForAForecast = 3;
    private const int YearsToTheDay = 2;

    public static IEnumerable<string> Of(SizeOutlook size)
    {
        var isOpen = size.Limit is not null && size.Remaining > Length.Zero;
        yield return Stand(size) + Grinds(size) + (isOpen && size.Robust is null ? TooFew(size) : "");
        if (!isOpen || size.Robust is null)
        {
            yield break;
        }

        yield return "  " + ByRobust(size, size.Robust);
        if (size is { Line: { } line, ByLine: { } byLine })
        {
            yield return "  " + ByLine(size, line, byLine) + Bent(size, line) + Next(size, line);
        }

        if (size.Running is { } running && size.Robust.Readings > running.Readings)
        {
            yield return $"  Running alone, since the last grind: {Rate(running.Slope, size)} over {running.Readings} readings.";
        }
    }

    /// <summary>What is left, for a line of its own in the list of what needs action.</summary>
    public static string Stand(SizeOutlook size)
    {
        var system = size.Last.System;
        var read =
            $"{ReportWords.Sentence(ReportWords.Of(size.Quantity))} {HistoryWords.Length(size.Last.Value, system)} on {HistoryWords.Day(size.Last.Day)}";
        return (size.Limit, size.Remaining) switch
        {
            ({ } limit, { } left) when left <= Length.Zero =>
                $"{read}: PAST its limit of {HistoryWords.Length(limit, system)} by {HistoryWords.Length(-left, system)}.",
            ({ } limit, { } left) =>
                $"{read}, limit {HistoryWords.Length(limit, system)}: {HistoryWords.Length(left, system)} left.",
            _ => $"{read}; the sheet states no limit.",
        };
    }

    private static string Grinds(SizeOutlook size)
    {
        if (size is not { GrindsLeft: { } left, PerGrind: { } each } || size.Remaining <= Length.Zero)
        {
            return "";
        }

        var basis =
            size.GrindsSeen == 0
                ? "by the sheet"
                : $"mean of {ReportWords.Counted(size.GrindsSeen, "grind", "grinds")} of this kind of unit";
        return $" {ReportWords.Sentence(ReportWords.Counted(left, "grind", "grinds"))} left at {HistoryWords.Fine(each, size.Last.System)} each ({basis}).";
    }

    private static string TooFew(SizeOutlook size)
    {
        var meter = size.JoinedFrom is { } from
            ? $" Before {HistoryWords.Day(from)} another hour meter counted."
            : "";
        if (size.Hours == 0)
        {
            return " No forecast: no hour meter was noted with the readings.";
        }

        return $" No forecast: read at {ReportWords.Counted(size.Hours, "hour", "different hours")}, {HoursForAForecast} are needed.{meter}";
    }

    private static string ByRobust(SizeOutlook size, RobustTrend trend)
    {
        var head = $"Grinds included (Theil-Sen, {trend.Readings} readings): {Rate(trend.Slope, size)}";
        return size.ByRobust switch
        {
            { Hours: WearForecast.Reaches reaches } forecast =>
                $"{head}; limit in about {HistoryWords.Hours(reaches.Left)}{On(forecast.Days?.On, size)}{Band(reaches, forecast.Days, size)}.",
            { Hours: WearForecast.Reached reached } =>
                $"{head}; the line is past the limit by {HistoryWords.Length(reached.By, size.Last.System)}.",
            _ => $"{head}; no wear towards the limit shows in these readings.",
        };
    }

    private static string ByLine(SizeOutlook size, LeastSquaresTrend line, SizeOutlook.Forecast byLine)
    {
        var head = $"Least squares: {Rate(line.Slope, size)}";
        return byLine.Hours is WearForecast.Reaches reaches
            ? $"{head}; limit in about {HistoryWords.Hours(reaches.Left)}{On(byLine.Days?.On, size)}{Band(reaches, byLine.Days, size)}."
            : $"{head}.";
    }

    /// <summary>At the hours of the last reading, so that a next one soon after can be held against it.</summary>
    private static string Next(SizeOutlook size, LeastSquaresTrend line)
    {
        var next = line.Predict(line.Last);
        return $" A next reading at {line.Last} is to be expected between {HistoryWords.LengthDown(next.Lower, size.Last.System)} and {HistoryWords.LengthUp(next.Upper, size.Last.System)} at {HistoryWords.Percent(LeastSquaresTrend.Level)}.";
    }

    /// <summary>Grinds bend any line; only without one does a bend say something.</summary>
    private static string Bent(SizeOutlook size, LeastSquaresTrend line) =>
        line.IsBent && size.Points.All(point => point.Stretch == size.Last.Stretch)
            ? " The readings bend by more than they scatter: a straight line foretells wrongly."
            : "";

    /// <summary>Wear towards the limit, without a sign; away from it is told as none.</summary>
    private static string Rate(WearRate slope, SizeOutlook size)
    {
        var way = size.Side == LimitSide.Lower ? slope < WearRate.Zero : slope > WearRate.Zero;
        var rate = HistoryWords.PerThousandHours(
            slope < WearRate.Zero ? WearRate.FromMillimetresPerHour(-slope.MillimetresPerHour) : slope,
            size.Last.System
        );
        return way ? $"{rate} in 1000 h" : "no wear shows";
    }

    /// <summary>A day where it is near, else the year: nobody knows the day years ahead.</summary>
    private static string On(DateOnly? day, SizeOutlook size) =>
        day is not { } on ? ""
        : on.Year - size.Last.Day.Year <= YearsToTheDay ? $", {HistoryWords.Day(on)}"
        : string.Create(CultureInfo.InvariantCulture, $", in {on.Year}");

    private static string Band(WearForecast.Reaches reaches, ForecastDates? days, SizeOutlook size)
    {
        if (reaches is { Earliest: null, Latest: null })
        {
            return $"; these readings give it no {HistoryWords.Percent(reaches.Level)} band";
        }

        var earliest = reaches.Earliest is { } first
            ? $"{HistoryWords.HoursDown(first)}{On(days?.Earliest, size)}"
            : "any time";
        var latest = reaches.Latest is { } last
            ? $"{HistoryWords.HoursUp(last)}{On(days?.Latest, size)}"
            : "no bound";
        return $"; band of {HistoryWords.Percent(reaches.Level)} from {earliest} to {latest}";
    }
}
