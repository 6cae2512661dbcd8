using System.Globalization;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Evaluation.Bench;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// What paper tried blade by blade and station by station tells of a strip that is not cut: a blade that fails wherever it
/// was tried, where others cut, is at fault itself; a station where every blade fails, while they cut elsewhere, is the
/// bedknife there; anything else is not told (turf reference formula F38: the paper's thickness sourced, the map common
/// practice, no source).
/// </summary>
internal static class PaperMap
{
    private const string Common = "common practice, no source";

    private static readonly Length Thickness = Length.FromInches(0.004m);

    /// <summary>The map in words; null where no strip failed.</summary>
    public static string? Of(IEnumerable<PlaceKnown> places, LimitSheet sheet)
    {
        var tried = places.Where(place => place.Paper is not null).ToList();
        if (tried.TrueForAll(IsCut))
        {
            return null;
        }

        var mapped = tried.FindAll(place => place is { Blade: not null, Station: not null });
        return mapped.TrueForAll(IsCut) || mapped.Count < tried.Count(place => !IsCut(place))
            ? "whether blade or bedknife is not told without both named: try every blade at left, middle and right"
            : Read(mapped, sheet)
                + $"; a strip is about {Thick(sheet)} thick and tries edge and gap together, so it proves no clearance";
    }

    private static string Read(List<PlaceKnown> tried, LimitSheet sheet)
    {
        var blades = tried.GroupBy(place => place.Blade!.Value).OrderBy(blade => blade.Key).ToList();
        var stations = tried.GroupBy(place => place.Station!.Value).OrderBy(station => station.Key).ToList();
        if (!tried.Exists(IsCut))
        {
            return blades.Count > 1 && stations.Count > 1
                ? "no blade cuts at any station tried: every edge is dull, or the gap is too wide to cut paper"
                : NotTold;
        }

        var badBlades = blades.FindAll(Fails);
        var badStations = stations.FindAll(Fails);
        var failing = tried.FindAll(place => !IsCut(place));
        if (
            badBlades.Count > 0
            && failing.TrueForAll(place => badBlades.Exists(each => each.Key == place.Blade))
        )
        {
            var named = Wording.Listed([
                .. badBlades.Select(each => each.Key.ToString(CultureInfo.InvariantCulture)),
            ]);
            return badBlades.Count == 1
                ? $"blade {named} fails at every station tried and the others cut: that blade is bent, nicked or dull ({Common})"
                : $"blades {named} fail at every station tried and the others cut: those blades are bent, nicked or dull ({Common})";
        }

        return
            badStations.Count > 0
            && failing.TrueForAll(place => badStations.Exists(each => each.Key == place.Station))
            ? $"every blade tried fails at {Wording.Listed([.. badStations.Select(each => Said(each.Key, sheet))])} and cuts elsewhere: the bedknife is at fault there ({Common})"
            : NotTold;
    }

    private static string NotTold =>
        "blades and stations are mixed, so that it is not told whether blade or bedknife: try every blade at left, middle and right";

    /// <summary>All of two tries or more failed: one alone tells nothing of what they share.</summary>
    private static bool Fails(IEnumerable<PlaceKnown> group)
    {
        var all = group.ToList();
        return all.Count > 1 && !all.Exists(IsCut);
    }

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
