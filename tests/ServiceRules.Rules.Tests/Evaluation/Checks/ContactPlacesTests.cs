using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

/// <summary>Contact noted by station or by blade, in the school of light contact over the full width.</summary>
public class ContactPlacesTests
{
    private static readonly AssessmentContext LightContact = Context with
    {
        SettingOrders = [Order with { Schools = [new("sheet-a", ContactSchool.LightContact)] }],
    };

    private static CheckOutcome On(params BenchEntry[] entries) =>
        Judge(
            new Check.Contact(MeasuredQuantity.Clearance),
            FrameBuilder.Build(Record(Unit(entries)), LightContact, Book())
        );

    private static Reading OfBlade(int blade, string? station = null) =>
        Contact(ContactState.Light, station) with
        {
            Blade = blade,
        };

    /// <summary>It was noted again after the turn, though not over the width: nothing was turned since.</summary>
    [Fact]
    public void Evaluate_NotedAgainAtStationsAfterATurn_DoesNotSayThatSomethingWasTurned()
    {
        var outcome = On(
            Contact(ContactState.Light),
            Open(Side.Left, 1),
            Contact(ContactState.Light, "left"),
            Contact(ContactState.Light, "right")
        );

        Assert.Equal((Verdict.Unproven, FindingReason.TooFewStations), (outcome.Verdict, outcome.Reason));
        Assert.Equal(
            "Clearance: contact was noted at left (51 mm) and right (459 mm) alone, not over the full width",
            outcome.Statement
        );
        Assert.Equal(["across"], Assert.IsType<Remedy.ReadAgain>(outcome.Remedy).Places.AsEnumerable());
    }

    [Fact]
    public void Evaluate_NotedAtOneStation_NamesTheOtherEnd() =>
        Assert.EndsWith(
            "not noted yet: the right end",
            Why(Contact(ContactState.Light, "left")),
            StringComparison.Ordinal
        );

    [Fact]
    public void Evaluate_NotedInTheMiddleAlone_NamesBothEnds() =>
        Assert.EndsWith(
            "not noted yet: both ends",
            Why(Contact(ContactState.Light, "middle")),
            StringComparison.Ordinal
        );

    /// <summary>The reel has nine blades.</summary>
    [Fact]
    public void Evaluate_NotedByBlade_NamesTheOtherBlades() =>
        Assert.EndsWith(
            "not noted yet: blades 2 and 4 to 9",
            Why(OfBlade(1), OfBlade(3)),
            StringComparison.Ordinal
        );

    [Fact]
    public void Evaluate_ABladeNotedAtOneEnd_NamesTheOtherEndToo() =>
        Assert.EndsWith(
            "not noted yet: blades 2 to 9 and the right end",
            Why(OfBlade(1, "left")),
            StringComparison.Ordinal
        );

    [Fact]
    public void Evaluate_OfABladeAndTurnedSince_IsStale() =>
        Assert.Equal(FindingReason.Stale, On(OfBlade(1), Open(Side.Left, 1)).Reason);

    [Fact]
    public void Evaluate_NothingTouchesAtOneEnd_NamesItAndClosesThatSideOnly()
    {
        var outcome = On(Contact(ContactState.Light, "left"), Contact(ContactState.None, "right"));

        Assert.StartsWith(
            "Clearance: no contact at right (459 mm), and",
            outcome.Statement,
            StringComparison.Ordinal
        );
        Assert.StartsWith(
            "close only the side that does not touch",
            Assert.IsType<Remedy.Act>(outcome.Remedy).What,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Evaluate_HeavyAtOneStation_NamesIt() =>
        Assert.StartsWith(
            "Clearance: heavy contact at left (51 mm), a fault",
            On(Contact(ContactState.Heavy, "left")).Statement,
            StringComparison.Ordinal
        );

    private static string Why(params BenchEntry[] entries) =>
        Assert.IsType<Remedy.ReadAgain>(On(entries).Remedy).Why;
}
