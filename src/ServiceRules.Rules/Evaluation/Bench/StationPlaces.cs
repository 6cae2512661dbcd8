using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Bench;

/// <summary>Distances of stations from the left end, by the sheet.</summary>
public static class StationPlaces
{
    /// <summary>
    /// A station this near to a gauging station of the sheet is that station, as one so near to an end tells that end: nobody
    /// sets a gauge on a unit to the millimetre. Common practice, no source.
    /// </summary>
    public static Length Near => WidthFit.Near;

    /// <summary>
    /// The distance of a station from the left end. A station by name is where the sheet puts it; left and right
    /// without a gauging station on the sheet are the ends themselves.
    /// </summary>
    public static Length? DistanceOf(Station? station, MeasuredQuantity quantity, LimitSheet sheet) =>
        station switch
        {
            null => null,
            Station.AtDistance at => Snapped(at.FromLeft.Value, quantity, sheet),
            Station.Named { Name: StationName.Left } => Left(quantity, sheet) ?? Length.Zero,
            Station.Named { Name: StationName.Right } => Right(quantity, sheet) ?? Width(sheet),
            Station.Named => Width(sheet) * 0.5m,
            _ => throw new InvalidOperationException("stations are a closed family"),
        };

    /// <summary>Of some things at places those at one: as near as nobody sets a gauge, of several places the nearest.</summary>
    /// <param name="all">The things.</param>
    /// <param name="at">The place; none: those of one place, or of the whole width.</param>
    /// <param name="stationOf">Where each stands.</param>
    public static IEnumerable<T> At<T>(IEnumerable<T> all, Length? at, Func<T, Length?> stationOf)
    {
        ArgumentNullException.ThrowIfNull(all);
        ArgumentNullException.ThrowIfNull(stationOf);
        return at is not { } place
            ? [.. all.Where(each => stationOf(each) is null)]
            : all.Where(each => stationOf(each) is { } other && (other - place).Abs <= Near)
                .GroupBy(each => (stationOf(each)!.Value - place).Abs)
                .MinBy(group => group.Key)
                ?.ToList()
                ?? [];
    }

    /// <summary>The width of the unit.</summary>
    public static Length Width(LimitSheet sheet) => sheet.Width.Governing.Value;

    /// <summary>The left gauging station of a quantity; none where the sheet names none.</summary>
    public static Length? Left(MeasuredQuantity quantity, LimitSheet sheet) =>
        sheet.Of(quantity)?.LeftStation?.Value;

    /// <summary>The right gauging station of a quantity; none where the sheet names none.</summary>
    public static Length? Right(MeasuredQuantity quantity, LimitSheet sheet) =>
        sheet.Of(quantity)?.RightStation?.Value;

    private static Length Snapped(Length distance, MeasuredQuantity quantity, LimitSheet sheet)
    {
        foreach (var station in new[] { Left(quantity, sheet), Right(quantity, sheet) })
        {
            if (station is { } gauging && (distance - gauging).Abs <= Near)
            {
                return gauging;
            }
        }

        return distance;
    }
}
