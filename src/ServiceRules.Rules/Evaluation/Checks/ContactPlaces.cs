using System.Collections.Immutable;
using System.Globalization;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Bench;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Contact noted at single stations or by single blades: none of that is the full width, however much of it is noted. What of both
/// ends and of the blades was not noted since the last turn is named.
/// </summary>
internal static class ContactPlaces
{
    private const string FullWidth =
        "note it over the full width, at no station and of no single blade, once it is heard and felt with every blade from end to end";

    /// <summary>Why contact over the full width is not known, and what to note.</summary>
    public static (FindingReason Reason, string Why, string Again) Missing(
        UnitFrame unit,
        MeasuredQuantity quantity,
        ImmutableArray<PlaceKnown> noted
    )
    {
        var across = (unit.Of(quantity)?.Left ?? []).FirstOrDefault(place =>
            place is { Station: null, Blade: null }
        );
        if (across is { State: KnownState.Conflicting })
        {
            const string why = "what was read over the width contradicts itself";
            return (FindingReason.Conflicting, why, why);
        }

        if (!noted.IsEmpty)
        {
            var lacking = Lacking(unit, quantity, noted);
            return (
                FindingReason.TooFewStations,
                $"contact was noted at {Named(unit, quantity, noted)} alone, not over the full width",
                lacking.Count == 0 ? FullWidth : $"{FullWidth}; not noted yet: {Wording.Listed(lacking)}"
            );
        }

        if (
            across is { State: KnownState.Stale }
            || (unit.Of(quantity)?.Left ?? []).Any(place =>
                place is { State: KnownState.Stale, IsGauged: false }
            )
        )
        {
            const string why = "something was turned after contact was noted: check again";
            return (FindingReason.Stale, why, why);
        }

        return (FindingReason.NotMeasured, "contact was not noted", "contact was not noted");
    }

    /// <summary>The full width, of no single blade.</summary>
    public static bool IsAcross(PlaceKnown place) => place is { Station: null, Blade: null };

    /// <summary>The places as they are said: stations first, then blades.</summary>
    public static string Named(UnitFrame unit, MeasuredQuantity quantity, IEnumerable<PlaceKnown> noted)
    {
        var places = UnitPlaces.Of(unit, quantity);
        var (ofBlades, others) = (
            noted.Where(place => place is { Station: null, Blade: not null }).ToList(),
            noted.Where(place => place is not { Station: null, Blade: not null })
        );
        List<string> named = [.. others.Select(place => places.Said(place.Station, place.Blade))];
        if (ofBlades.Count > 0)
        {
            named.Add(Blades([.. ofBlades.Select(place => place.Blade!.Value)]));
        }

        return Wording.Listed(named);
    }

    private static List<string> Lacking(
        UnitFrame unit,
        MeasuredQuantity quantity,
        ImmutableArray<PlaceKnown> noted
    )
    {
        var width = StationPlaces.Width(unit.Sheet);
        var left = (StationPlaces.Left(quantity, unit.Sheet) ?? Length.Zero) + StationPlaces.Near;
        var right = (StationPlaces.Right(quantity, unit.Sheet) ?? width) - StationPlaces.Near;
        var atLeft = Open(unit, noted.Where(place => !(place.Station > left)));
        var atRight = Open(unit, noted.Where(place => !(place.Station < right)));
        var everywhere = atLeft.Intersect(atRight).ToList();
        var all = unit.Sheet.Blades;
        if (everywhere.Count == all)
        {
            return ["both ends"];
        }

        List<string> lacking = [];
        if (everywhere.Count > 0)
        {
            lacking.Add(Blades(everywhere));
        }

        foreach (var (end, open) in new[] { ("the left end", atLeft), ("the right end", atRight) })
        {
            var more = open.Except(everywhere).ToList();
            if (more.Count > 0)
            {
                lacking.Add(open.Count == all ? end : $"{Blades(more)} at {end}");
            }
        }

        return lacking;
    }

    /// <summary>The blades of which nothing was noted there.</summary>
    private static List<int> Open(UnitFrame unit, IEnumerable<PlaceKnown> there)
    {
        var noted = there.Select(place => place.Blade).ToList();
        return noted.Contains(null)
            ? []
            : [.. Enumerable.Range(1, unit.Sheet.Blades).Where(blade => !noted.Contains(blade))];
    }

    /// <summary>Three in a row or more are said as a stretch.</summary>
    private static string Blades(List<int> blades)
    {
        List<(int From, int To)> runs = [];
        foreach (var blade in blades.Order())
        {
            if (runs.Count > 0 && runs[^1].To == blade - 1)
            {
                runs[^1] = (runs[^1].From, blade);
            }
            else
            {
                runs.Add((blade, blade));
            }
        }

        var said = runs.SelectMany(run =>
                run.To - run.From >= 2
                    ? [string.Create(CultureInfo.InvariantCulture, $"{run.From} to {run.To}")]
                    : Enumerable
                        .Range(run.From, run.To - run.From + 1)
                        .Select(blade => blade.ToString(CultureInfo.InvariantCulture))
            )
            .ToList();
        return (blades.Count == 1 ? "blade " : "blades ") + Wording.Listed(said);
    }
}
