using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Wear;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.History;

/// <summary>Reckons how sizes stand to their limits.</summary>
/// <param name="groundOff">What each grind took off, by kind of unit and size.</param>
internal sealed class SizeReckoning(ILookup<(string Sheet, MeasuredQuantity Quantity), Length> groundOff)
{
    private const int Decimals = 6;

    // Pairs of readings grow with their square; a reel is read some dozens of times in its life.
    private const int MostReadings = 500;

    public SizeOutlook? Of(PartLife life, MeasuredQuantity quantity, RunningTime? perWeek)
    {
        var series = SizeSeries.Of(life, quantity);
        if (series.Points.IsEmpty)
        {
            return null;
        }

        var sheet = life.Last.Sheet;
        var last = series.Points[^1];
        var side = quantity == MeasuredQuantity.LandWidth ? LimitSide.Upper : LimitSide.Lower;
        var print = side == LimitSide.Lower ? sheet.Of(quantity)?.Lower : sheet.Of(quantity)?.Upper;
        var limit = print?.In(last.System);
        var points = PointsOf(series.Points);
        // A forecast counts from the last reading with hours: on the bench there may be a later one without.
        var from = (series.Points.LastOrDefault(point => point.Hours is not null) ?? last).Day;
        var robust = RobustTrend.Through(points);
        var line = LeastSquaresTrend.Through(points);
        var running = PointsOf(series.Points.Where(point => point.Stretch == last.Stretch));
        var (perGrind, seen) = PerGrind(sheet, quantity, last.System);
        return new()
        {
            Quantity = quantity,
            Part = life.Name,
            Points = series.Points,
            Limit = limit,
            Side = side,
            Hours = points.Select(point => point.At).Distinct().Count(),
            Robust = robust,
            ByRobust = Dated(limit is { } one ? robust?.Reach(one, side) : null, from, perWeek),
            Line = line,
            ByLine = Dated(limit is { } other ? line?.Reach(other, side) : null, from, perWeek),
            Running = RobustTrend.Through(running),
            PerGrind = perGrind,
            GrindsSeen = seen,
            GrindsLeft = GrindsLeft(quantity, last.Value, limit, perGrind),
            JoinedFrom = series.JoinedFrom,
        };
    }

    private static ImmutableArray<WearPoint> PointsOf(IEnumerable<SizePoint> points) =>
        [
            .. points
                .Where(point => point.Hours is not null)
                .TakeLast(MostReadings)
                .Select(point => new WearPoint(point.Hours!.Value, point.Value)),
        ];

    private static SizeOutlook.Forecast? Dated(WearForecast? forecast, DateOnly from, RunningTime? perWeek) =>
        forecast is null
            ? null
            : new(
                forecast,
                forecast is WearForecast.Reaches reaches && perWeek is { } weekly
                    ? ForecastDates.Of(reaches, from, weekly)
                    : null
            );

    private static int? GrindsLeft(MeasuredQuantity quantity, Length now, Length? limit, Length? perGrind) =>
        (limit, perGrind) is not ({ } least, { } off) ? null
        : quantity == MeasuredQuantity.ReelDiameter ? ReelLife.GrindsLeft(now, least, off)
        : BedknifeLife.FacingsLeft(now, least, off);

    private (Length? PerGrind, int Seen) PerGrind(
        LimitSheet sheet,
        MeasuredQuantity quantity,
        UnitSystem system
    )
    {
        if (quantity == MeasuredQuantity.LandWidth)
        {
            return (null, 0);
        }

        var seen = groundOff[(sheet.Id.Text, quantity)].ToList();
        if (seen.Count > 0)
        {
            var mean = decimal.Round(seen.Average(loss => loss.Millimetres), Decimals);
            return (Length.FromMillimetres(mean), seen.Count);
        }

        var stated =
            quantity == MeasuredQuantity.ReelDiameter ? sheet.Wear?.ReelPerGrind : sheet.Wear?.LipPerFacing;
        return (stated?.In(system), 0);
    }
}
