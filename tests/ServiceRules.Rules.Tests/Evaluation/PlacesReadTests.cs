using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation;

/// <summary>Stations nearer to one another than anybody sets a gauge are one place.</summary>
public class PlacesReadTests
{
    private static readonly LimitSheet OddWidth = Sheet with { Width = D("20.08 in") };

    [Theory]
    [InlineData("middle", "255 mm")]
    [InlineData("255 mm", "middle")]
    [InlineData("255 mm", "260 mm")]
    [InlineData("2 mm", "3 mm")]
    [InlineData("507 mm", "509 mm")]
    [InlineData("120 mm", "125 mm")]
    [InlineData("left", "56 mm")]
    public void Known_OfTwoNamesOfOnePlace_IsOnePlaceThatContradictsItself(string one, string other)
    {
        var places = Heights(Height(one, "4.00 mm"), Height(other, "4.30 mm"));

        var place = Assert.Single(places);
        Assert.Equal(KnownState.Conflicting, place.State);
        Assert.Equal(2, place.Evidence.Length);
    }

    [Theory]
    [InlineData("left", "57 mm")]
    [InlineData("120 mm", "126 mm")]
    [InlineData("255 mm", "261 mm")]
    public void Known_OfStationsFurtherApart_IsTwoPlaces(string one, string other) =>
        Assert.Equal(2, Heights(Height(one, "4.00 mm"), Height(other, "4.30 mm")).Length);

    /// <summary>One station alone keeps the distance that was noted.</summary>
    [Fact]
    public void Known_OfOneStationNearTheMiddle_StandsWhereItWasNoted() =>
        Assert.Equal(Mm(253m), Assert.Single(Heights(Height("253 mm", "4.00 mm"))).Station);

    /// <summary>What tells an end is the end's, not that of a station a little further in.</summary>
    [Fact]
    public void Known_OfAStationBesideOneAtTheEnd_StandsAtTheEnd()
    {
        var place = Assert.Single(Heights(Height("8 mm", "4.00 mm"), Height("4 mm", "4.00 mm")));

        Assert.Equal(Mm(4m), place.Station);
    }

    /// <summary>The groomer read at 255 mm is held against the height read in the middle, 255.016 mm.</summary>
    [Fact]
    public void Relation_OfStationsOfOnePlace_HoldsThemAgainstOneAnother()
    {
        var frame = FrameBuilder.Build(
            Record(
                Unit(
                    Height("left", "4.00 mm"),
                    Height("middle", "4.60 mm"),
                    Height("right", "4.00 mm"),
                    Measured(MeasuredQuantity.GroomerHeight, "255 mm", "4.50 mm")
                )
            ),
            Context,
            Book(OddWidth)
        );

        var outcome = Judge(
            new Check.Relation(
                MeasuredQuantity.GroomerHeight,
                QuantityRelation.NotAbove,
                MeasuredQuantity.HeightOfCut,
                D("0.00 mm")
            ),
            frame
        );

        Assert.Equal(Verdict.Met, outcome.Verdict);
    }

    private static ImmutableArray<PlaceKnown> Heights(params BenchEntry[] entries) =>
        FrameBuilder
            .Build(Record(Unit(entries)), Context, Book(OddWidth))
            .Units[0]
            .Of(MeasuredQuantity.HeightOfCut)!
            .Left;
}
