using System.Collections.Immutable;
using ServiceRules.Rules.Layering;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Tests.Layering;

public class CitationsInForceTests
{
    private static readonly ImmutableArray<RulePack> Packs =
    [
        Pack("base", PackLayer.Base, "told"),
        Pack("here", PackLayer.Jurisdiction, "told", "locked"),
        Pack("there", PackLayer.Jurisdiction, "told", "worn"),
    ];

    [Fact]
    public void Of_SiteNamesNone_CitesNothing() => Assert.Null(CitationsInForce.Of(Packs, [], new("told")));

    [Theory]
    [InlineData("here there", "told", "here")]
    [InlineData("there here", "told", "there")]
    [InlineData("there here", "locked", "here")]
    [InlineData("elsewhere", "told", null)]
    [InlineData("base", "told", null)]
    [InlineData("here there", "unheard-of", null)]
    public void Of_SiteNamesSome_CitesOneOfThemAlone(string named, string rule, string? expected)
    {
        var cited = CitationsInForce.Of(Packs, [.. named.Split(' ')], new(rule));

        Assert.Equal(expected, cited?.Pack.Text);
        Assert.All(cited?.Citations ?? [], one => Assert.Equal($"text of {expected}", one.Source));
        Assert.Equal(expected is null ? null : $"asked before {expected}", cited?.Precedence);
    }

    /// <summary>A record is told the text of its own day: the old one stays for older records.</summary>
    [Theory]
    [InlineData("2026-02-28", "old")]
    [InlineData("2026-03-01", "new")]
    [InlineData(null, "old")]
    public void Of_TextThatChanged_CitesThatOfTheDay(string? on, string expected)
    {
        ImmutableArray<RulePack> packs =
        [
            Pack("old", PackLayer.Jurisdiction, "told") with
            {
                Until = new(2026, 2, 28),
            },
            Pack("new", PackLayer.Jurisdiction, "told") with
            {
                From = new(2026, 3, 1),
            },
        ];
        DateOnly? day = on is null
            ? null
            : DateOnly.ParseExact(on, "yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);

        Assert.Equal(expected, CitationsInForce.Of(packs, ["old", "new"], new("told"), day)?.Pack.Text);
    }

    private static RulePack Pack(string id, PackLayer layer, params string[] rules) =>
        new()
        {
            Id = new(id),
            Version = "1",
            Title = id,
            Layer = layer,
            Rules = [],
            Precedence = $"asked before {id}",
            Citations =
            [
                .. rules.Select(rule => new Citation(
                    new(rule),
                    [],
                    $"text of {id}",
                    ["1"],
                    CitationStanding.TextRead
                )),
            ],
        };
}
