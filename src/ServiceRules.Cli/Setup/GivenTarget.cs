using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;

namespace ServiceRules.Cli.Setup;

/// <summary>What a setting order says, as it is given with options.</summary>
internal static class GivenTarget
{
    private const string Either = "+-";

    /// <summary><c>golf-greens=3.8 mm</c>, <c>golf-greens/reel-125-9-510=3.8 mm +- 0.1 mm</c>.</summary>
    /// <exception cref="InputException">It cannot be read.</exception>
    public static AreaTarget Height(string option, string text)
    {
        var (place, value) = GivenWord.Pair(option, text, "golf-greens=3.8 mm");
        return Target(option, MeasuredQuantity.HeightOfCut, place, value);
    }

    /// <summary><c>groomer-height golf-greens=3.8 mm</c>.</summary>
    /// <exception cref="InputException">It cannot be read.</exception>
    public static AreaTarget Target(string option, string text)
    {
        const string Example = "groomer-height golf-greens=3.0 mm";
        var (name, value) = GivenWord.Pair(option, text, Example);
        var words = name.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        return words.Length == 2
            ? Target(option, GivenWord.Of<MeasuredQuantity>(option, words[0]), words[1], value)
            : throw new InputException(
                $"{option}: `{name}` is not a quantity and an area; accepted: such as `{Example}`"
            );
    }

    /// <summary><c>reel-125-9-510=air-gap</c>.</summary>
    /// <exception cref="InputException">It cannot be read.</exception>
    public static SchoolChoice School(string option, string text)
    {
        var (sheet, school) = GivenWord.Pair(option, text, "reel-125-9-510=air-gap");
        return new(Identity(option, sheet), GivenWord.Of<ContactSchool>(option, school));
    }

    /// <summary><c>golf-greens=4 km/h, 2200 rev/min</c>.</summary>
    /// <exception cref="InputException">It cannot be read.</exception>
    public static AreaMowing Speed(string option, string text)
    {
        const string Example = "golf-greens=4 km/h, 2200 rev/min";
        var (place, value) = GivenWord.Pair(option, text, Example);
        var speeds = value.Split(',', StringSplitOptions.TrimEntries);
        if (speeds.Length != 2)
        {
            throw new InputException(
                $"{option}: `{value}` is not a ground speed and a reel speed; accepted: such as `{Example}`"
            );
        }

        var (area, sheet) = Place(option, place);
        return new(
            area,
            sheet,
            Read(option, Domain.Quantities.Speed.Parse(speeds[0])),
            Read(option, RotationRate.Parse(speeds[1]))
        );
    }

    /// <exception cref="InputException">It is no identity.</exception>
    public static string Identity(string option, string text) => GivenPerson.Identified(option, text);

    private static AreaTarget Target(string option, MeasuredQuantity quantity, string place, string value)
    {
        var (area, sheet) = Place(option, place);
        var parts = value
            .Replace("±", Either, StringComparison.Ordinal)
            .Split(Either, 2, StringSplitOptions.TrimEntries);
        return new(
            area,
            sheet,
            quantity,
            Read(option, PrintedLength.Parse(parts[0])),
            parts.Length > 1 ? Read(option, PrintedLength.Parse(parts[1])) : null
        );
    }

    private static (string Area, string? Sheet) Place(string option, string text)
    {
        var parts = text.Split('/', 2);
        return (Identity(option, parts[0]), parts.Length > 1 ? Identity(option, parts[1]) : null);
    }

    private static T Read<T>(string option, Parsed<T> parsed)
        where T : notnull =>
        parsed.TryGet(out var value, out var failure)
            ? value
            : throw new InputException($"{option}: {failure}");
}
