using System.Collections.Immutable;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Site;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Authoring;

/// <summary>The figures of a quantity in a limit sheet, by the names of the file.</summary>
public static class LimitMembers
{
    private static readonly ImmutableSortedDictionary<
        string,
        Func<QuantityLimit, DualPrint, QuantityLimit>
    > Setting = new Dictionary<string, Func<QuantityLimit, DualPrint, QuantityLimit>>(StringComparer.Ordinal)
    {
        ["leftStation"] = (limit, figure) => limit with { LeftStation = figure.Governing },
        ["rightStation"] = (limit, figure) => limit with { RightStation = figure.Governing },
        ["lower"] = (limit, figure) => limit with { Lower = figure },
        ["upper"] = (limit, figure) => limit with { Upper = figure },
        ["target"] = (limit, figure) => limit with { Target = figure },
        ["toleranceAboutTarget"] = (limit, figure) => limit with { ToleranceAboutTarget = figure },
        ["sideToSide"] = (limit, figure) => limit with { SideToSide = figure },
        ["acrossUnits"] = (limit, figure) => limit with { AcrossUnits = figure },
        ["adjacentEnds"] = (limit, figure) => limit with { AdjacentEnds = figure },
        ["parallelism"] = (limit, figure) => limit with { Parallelism = figure },
        ["taper"] = (limit, figure) => limit with { Taper = figure },
        ["barrel"] = (limit, figure) => limit with { Barrel = figure },
        ["twist"] = (limit, figure) => limit with { Twist = figure },
        ["wornBelow"] = (limit, figure) => limit with { WornBelow = figure },
        ["passes"] = (limit, figure) => WithFeeler(limit, school => school with { Passes = figure }),
        ["stops"] = (limit, figure) => WithFeeler(limit, school => school with { Stops = figure }),
    }.ToImmutableSortedDictionary(StringComparer.Ordinal);

    /// <summary>The names.</summary>
    public static IEnumerable<string> Names => Setting.Keys;

    /// <summary>Whether it is one of them.</summary>
    public static bool Has(string name) => Setting.ContainsKey(name);

    /// <summary>The limit with one figure set.</summary>
    public static QuantityLimit With(QuantityLimit limit, string member, DualPrint figure) =>
        Setting[member](limit, figure);

    /// <summary>The names of those that a limit states.</summary>
    public static IEnumerable<string> StatedIn(QuantityLimit limit)
    {
        ArgumentNullException.ThrowIfNull(limit);
        var gap = limit.Schools.FirstOrDefault(one => one.School is ContactSchool.AirGap);
        (string Name, object? Figure)[] all =
        [
            ("leftStation", limit.LeftStation),
            ("rightStation", limit.RightStation),
            ("lower", limit.Lower),
            ("upper", limit.Upper),
            ("target", limit.Target),
            ("toleranceAboutTarget", limit.ToleranceAboutTarget),
            ("sideToSide", limit.SideToSide),
            ("acrossUnits", limit.AcrossUnits),
            ("adjacentEnds", limit.AdjacentEnds),
            ("parallelism", limit.Parallelism),
            ("taper", limit.Taper),
            ("barrel", limit.Barrel),
            ("twist", limit.Twist),
            ("wornBelow", limit.WornBelow),
            ("passes", gap?.Passes),
            ("stops", gap?.Stops),
        ];
        return all.Where(one => one.Figure is not null).Select(one => one.Name);
    }

    private static QuantityLimit WithFeeler(QuantityLimit limit, Func<SchoolProcedure, SchoolProcedure> set)
    {
        var gap =
            limit.Schools.FirstOrDefault(one => one.School is ContactSchool.AirGap)
            ?? new SchoolProcedure(ContactSchool.AirGap, null, null);
        return limit with
        {
            Schools = [.. limit.Schools.Where(one => one.School is not ContactSchool.AirGap), set(gap)],
        };
    }
}
