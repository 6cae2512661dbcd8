using System.Collections.Immutable;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Bench;

/// <summary>
/// The places at which a bench log reads each quantity. Stations nearer to one another than anybody sets a gauge are one place,
/// by the sheet's gauging station where one of them is that, else by what stands at an end or in the middle, else by the one
/// that was noted first: what is one place with two names cannot contradict itself unseen, nor count twice.
/// </summary>
public sealed class PlacesRead
{
    private readonly LimitSheet sheet;
    private readonly Dictionary<MeasuredQuantity, ImmutableArray<Length>> places;

    private PlacesRead(LimitSheet sheet, Dictionary<MeasuredQuantity, ImmutableArray<Length>> places)
    {
        this.sheet = sheet;
        this.places = places;
    }

    /// <summary>The places of a bench log.</summary>
    /// <param name="entries">The bench log.</param>
    /// <param name="sheet">The sheet that the unit is held to.</param>
    public static PlacesRead Of(IEnumerable<BenchEntry> entries, LimitSheet sheet)
    {
        ArgumentNullException.ThrowIfNull(entries);
        ArgumentNullException.ThrowIfNull(sheet);
        return new(
            sheet,
            entries
                .OfType<Reading>()
                .Where(reading => reading.Withdrawn is null)
                .GroupBy(reading => reading.Quantity)
                .ToDictionary(group => group.Key, group => Places(group.Key, group, sheet))
        );
    }

    /// <summary>Where a reading stands; none where it names no station.</summary>
    /// <param name="reading">A reading of the bench log.</param>
    public Length? Of(Reading reading)
    {
        ArgumentNullException.ThrowIfNull(reading);
        return StationPlaces.DistanceOf(reading.Station, reading.Quantity, sheet) is { } at
            ? Nearest(places.GetValueOrDefault(reading.Quantity, []), at) ?? at
            : null;
    }

    private static ImmutableArray<Length> Places(
        MeasuredQuantity quantity,
        IEnumerable<Reading> readings,
        LimitSheet sheet
    )
    {
        var noted = readings
            .Select(reading => StationPlaces.DistanceOf(reading.Station, quantity, sheet))
            .OfType<Length>()
            .Distinct()
            .ToList();
        return
        [
            .. noted
                .OrderBy(at => Standing(at, quantity, sheet))
                .Aggregate(
                    new List<Length>(),
                    (found, at) =>
                    {
                        if (Nearest(found, at) is null)
                        {
                            found.Add(at);
                        }

                        return found;
                    }
                ),
        ];
    }

    private static Length? Nearest(IEnumerable<Length> places, Length at) =>
        places
            .Where(place => (place - at).Abs <= StationPlaces.Near)
            .OrderBy(place => (place - at).Abs)
            .ThenBy(place => place)
            .Select(place => (Length?)place)
            .FirstOrDefault();

    /// <summary>A gauging station first, then what stands at an end or in the middle, then the rest, each as noted.</summary>
    private static int Standing(Length at, MeasuredQuantity quantity, LimitSheet sheet)
    {
        var width = StationPlaces.Width(sheet);
        return at == StationPlaces.Left(quantity, sheet) || at == StationPlaces.Right(quantity, sheet) ? 0
            : new[] { Length.Zero, width, width * 0.5m }.Any(told => (told - at).Abs <= WidthFit.Near) ? 1
            : 2;
    }
}
