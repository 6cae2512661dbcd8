using System.Globalization;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using ServiceRules.Application.Authoring;
using ServiceRules.Domain.Timeline;
using ServiceRules.TestKit;

namespace ServiceRules.Application.Tests.Authoring;

/// <summary>The clock of a site against what another program reads in the same zone data, and against published days.</summary>
public sealed partial class FrozenZoneTests
{
    private static SiteZone Frozen(string name, int from, int through) =>
        FrozenZone
            .Of(TimeZoneInfo.FindSystemTimeZoneById(name), "test", from, through)
            .TryGet(out var zone, out var failure)
            ? zone
            : throw new InvalidOperationException(failure.ToString());

    private static IEnumerable<string> Moves(SiteZone zone) =>
        zone.Transitions.Select(move =>
            string.Create(CultureInfo.InvariantCulture, $"{move.At} {move.OffsetMinutes}")
        );

    /// <summary>Directive 2000/84/EC, which the United Kingdom keeps: last Sundays of March and October, 01:00 UTC.</summary>
    [Fact]
    public void London_From2024Through2030_IsWhatTheShippedSiteHas()
    {
        var site = JsonNode.Parse(
            File.ReadAllBytes(ReferenceFiles.InRepository("rules", "site-alder-reach", "site.json"))
        )!["zone"]!;

        var zone = Frozen("Europe/London", 2024, 2030);

        Assert.Equal(0, zone.FirstOffsetMinutes);
        Assert.Equal(
            site["transitions"]!.AsArray().Select(move => $"{move!["at"]} {move["offsetMinutes"]}"),
            Moves(zone)
        );
    }

    [SkippableTheory]
    [InlineData("America/Chicago")]
    [InlineData("America/Sao_Paulo")]
    [InlineData("America/St_Johns")]
    [InlineData("Australia/Lord_Howe")]
    [InlineData("Australia/Perth")]
    [InlineData("Europe/Dublin")]
    [InlineData("Africa/Casablanca")]
    [InlineData("Pacific/Chatham")]
    [InlineData("Pacific/Apia")]
    [InlineData("America/Nuuk")]
    [InlineData("UTC")]
    public void Zone_From2008Through2036_IsMovedWhenZdumpSaysSo(string name)
    {
        var told = Tool.Require("zdump").Run("-v", "-c", "2008,2037", name);

        var zone = Frozen(name, 2008, 2036);

        var changes = Line()
            .Matches(told.StandardOutput)
            .Select(line =>
                (
                    At: DateTime.ParseExact(
                        Spaces().Replace(line.Groups[1].Value, " "),
                        "MMM d HH:mm:ss yyyy",
                        CultureInfo.InvariantCulture,
                        DateTimeStyles.AssumeUniversal | DateTimeStyles.AdjustToUniversal
                    ),
                    Offset: int.Parse(line.Groups[2].Value, CultureInfo.InvariantCulture) / 60
                )
            )
            .Where(line => line.At.Year is >= 2008 and < 2037)
            .OrderBy(line => line.At)
            .ToList();
        // Two lines for each change: the second before, and the first of it.
        Assert.Equal(
            changes
                .Zip(changes.Skip(1))
                .Where(pair =>
                    pair.Second.At - pair.First.At == TimeSpan.FromSeconds(1)
                    && pair.First.Offset != pair.Second.Offset
                )
                .Select(pair =>
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"{pair.Second.At:yyyy-MM-dd'T'HH:mm:ss'Z'} {pair.Second.Offset}"
                    )
                ),
            Moves(zone)
        );
    }

    [GeneratedRegex(@"  \w{3} (\w{3} +\d+ \d\d:\d\d:\d\d \d{4}) UT = .* gmtoff=(-?\d+)")]
    private static partial Regex Line();

    [GeneratedRegex(" +")]
    private static partial Regex Spaces();
}
