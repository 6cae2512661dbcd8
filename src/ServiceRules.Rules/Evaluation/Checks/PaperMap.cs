using System.Globalization;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Evaluation.Bench;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// What paper tried blade by blade and station by station tells of a strip that is not cut: a blade that fails wherever it
/// was tried, while others cut at those stations, is at fault itself; a station where every blade fails, while they cut
/// elsewhere, is the bedknife there; anything else is not told (turf reference formula F38: the paper's thickness sourced, the map common
/// practice, no source).
/// </summary>
internal static class PaperMap
{
    private const string Common = "common practice, no source";

    private static readonly Length Thickness = Length.FromInches(0.004m);

    /// <summary>The map in words, and what to do where it tells who is at fault; null where no strip failed.</summary>
    public static (string Told, string? Act)? Of(IEnumerable<PlaceKnown> places, LimitSheet sheet)
    {
        var tried = places.Where(place => place.Paper is not null).ToList();
        if (tried.TrueForAll(IsCut))
        {
            return null;
        }

        var mapped = tried.FindAll(place => place is { Blade: not null, Station: not null });
        if (mapped.Count(place => !IsCut(place)) < tried.Count(place => !IsCut(place)))
        {
            return (
                "whether blade or bedknife is not told without both named: try every blade at left, middle and right",
                null
            );
        }

        var (told, act) = Read(mapped, sheet);
        return (
            $"{told}; a strip is about {Thick(sheet)} thick and tries edge and gap together, so it proves no clearance",
            act
        );
    }

    private static (string Told, string? Act) Read(List<PlaceKnown> tried, LimitSheet sheet)
    {
        var failing = tried.FindAll(place => !IsCut(place));
        var blades = failing.Select(place => place.Blade!.Value).Distinct().Order().ToList();
        var stations = failing.Select(place => place.Station!.Value).Distinct().Order().ToList();
        var bladesAlone =
            blades.TrueForAll(blade => Fails(tried.FindAll(place => place.Blade == blade)))
            && stations.TrueForAll(station =>
                CutsSomewhere(tried.FindAll(place => place.Station == station))
            );
        var stationsAlone =
            stations.TrueForAll(station => Fails(tried.FindAll(place => place.Station == station)))
            && blades.TrueForAll(blade => CutsSomewhere(tried.FindAll(place => place.Blade == blade)));
        if (bladesAlone)
        {
            var (name, fails, those) =
                blades.Count == 1
                    ? ($"blade {Listed(blades)}", "fails", "that blade is")
                    : ($"blades {Listed(blades)}", "fail", "those blades are");
            return (
                $"{name} {fails} at every station tried, and others cut there: {those} bent, nicked or dull ({Common})",
                $"put {name} right: straighten, or grind the reel; then try paper there again"
            );
        }

        if (stationsAlone)
        {
            var where = Wording.Listed(stations.ConvertAll(station => Said(station, sheet)));
            return (
                $"every blade tried fails at {where} and cuts elsewhere: the bedknife is at fault there ({Common})",
                $"put the bedknife right at {where}: grind or replace it; then try every blade there again"
            );
        }

        return !tried.Exists(IsCut) && blades.Count > 1 && stations.Count > 1
            ? (
                "no blade cuts at any station tried: every edge is dull, or the gap is too wide to cut paper",
                null
            )
            : (NotTold(tried), null);
    }

    private static string Listed(List<int> blades) =>
        Wording.Listed(blades.ConvertAll(blade => blade.ToString(CultureInfo.InvariantCulture)));

    private static string NotTold(List<PlaceKnown> tried)
    {
        var blades = tried.Select(place => place.Blade).Distinct().Count();
        var stations = tried.Select(place => place.Station).Distinct().Count();
        var why = (blades, stations) switch
        {
            (1, 1) => "one strip alone was tried",
            (_, 1) => "one station alone was tried",
            (1, _) => "one blade alone was tried",
            _ => "blades and stations are mixed",
        };
        return $"{why}, so that it is not told whether blade or bedknife: try every blade at left, middle and right";
    }

    /// <summary>All of two tries or more failed: one alone tells nothing of what they share.</summary>
    private static bool Fails(List<PlaceKnown> group) => group.Count > 1 && !CutsSomewhere(group);

    private static bool CutsSomewhere(List<PlaceKnown> group) => group.Exists(IsCut);

    private static bool IsCut(PlaceKnown place) => place.Paper is PaperResult.Cuts;

    private static string Said(Length station, LimitSheet sheet) =>
        station == Length.Zero ? "the left end"
        : station == StationPlaces.Width(sheet) ? "the right end"
        : station == StationPlaces.Width(sheet) * 0.5m ? "the middle"
        : UnitPlaces.Name(station, null);

    private static string Thick(LimitSheet sheet) =>
        sheet.Width.Governing.System is UnitSystem.Inch
            ? Wording.Of(Thickness, UnitSystem.Inch)
            : Wording.Of(Length.FromMillimetres(Math.Round(Thickness.Millimetres, 1)), UnitSystem.Metric);
}
