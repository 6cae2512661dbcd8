using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation;

/// <summary>Contact and gaps do not change by themselves: trying until it comes out twice settles nothing.</summary>
public class TriesWithNothingTurnedTests
{
    private static readonly Check Look = new Check.Contact(MeasuredQuantity.Clearance);

    private static readonly Check Taught = new Check.ProceduralLimit(MeasuredQuantity.Clearance);

    private static readonly Check Limit = new Check.LimitOnQuantity(
        MeasuredQuantity.Clearance,
        LimitSource.Sheet,
        CheckedPlaces.Stations
    );

    private static readonly BenchEntry[] Right =
    [
        Feeler("right", "0.001 in", true),
        Feeler("right", "0.0015 in", false),
    ];

    [Fact]
    public void Contact_HeavyAndThenNoneTwice_IsUnprovenAndTold()
    {
        var outcome = Judge(
            Look,
            Contact(ContactState.Heavy) with
            {
                At = At("2026-04-13T09:12:00Z"),
            },
            Contact(ContactState.None),
            Contact(ContactState.None)
        );

        Assert.Equal((Verdict.Unproven, FindingReason.Conflicting), (outcome.Verdict, outcome.Reason));
        Assert.Contains(
            "heavy contact (at 09:12), then no contact, with nothing turned between",
            outcome.Statement,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Contact_HeavyAtOneStationAndThenNoneTwiceThere_IsUnproven() =>
        Assert.Equal(
            Verdict.Unproven,
            Judge(
                Look,
                Contact(ContactState.Heavy, "left"),
                Contact(ContactState.None, "left"),
                Contact(ContactState.None, "left"),
                Contact(ContactState.None)
            ).Verdict
        );

    [Fact]
    public void Contact_TurnedBetween_IsAsLastNoted() =>
        Assert.Equal(
            Verdict.Met,
            Judge(Look, Contact(ContactState.Heavy), Open(Side.Both, 2), Contact(ContactState.None)).Verdict
        );

    /// <summary>No contradiction softens a breach: what was heard twice running is a fault, and so is what is one either way.</summary>
    [Theory]
    [InlineData(ContactState.None, ContactState.Heavy, ContactState.Heavy, FindingReason.HeavyContact)]
    [InlineData(ContactState.Heavy, ContactState.Heavy, ContactState.Light, FindingReason.WrongContact)]
    public void Contact_AFaultWhicheverIsBelieved_IsOne(
        ContactState first,
        ContactState second,
        ContactState third,
        FindingReason reason
    )
    {
        var outcome = Judge(Look, Contact(first), Contact(second), Contact(third));

        Assert.Equal((Verdict.NotMet, reason), (outcome.Verdict, outcome.Reason));
        Assert.Contains(
            outcome.Notices,
            notice => notice.Contains("with nothing turned between", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Contact_TakenBack_CountsForNothingAndIsTold()
    {
        var outcome = Judge(
            Look,
            Contact(ContactState.Heavy) with
            {
                Withdrawn = "wrong key",
            },
            Contact(ContactState.None)
        );

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.Equal(
            "across: taken back, and counts for nothing: heavy contact (wrong key)",
            Assert.Single(outcome.Notices)
        );
    }

    [Fact]
    public void Feeler_PassingTwiceAfterItDidNot_ProvesNothingInAndIsTold()
    {
        BenchEntry[] log =
        [
            Feeler("left", "0.001 in", false),
            Feeler("left", "0.001 in", true),
            Feeler("left", "0.001 in", true),
            Feeler("left", "0.0015 in", false),
            .. Right,
        ];

        foreach (var outcome in new[] { Judge(Taught, log), Judge(Limit, log) })
        {
            Assert.Equal((Verdict.Unproven, FindingReason.Conflicting), (outcome.Verdict, outcome.Reason));
            Assert.Contains(
                outcome.Notices,
                notice =>
                    notice.Contains(
                        "the 0.001 in feeler does not pass, then the 0.001 in feeler passes, with nothing turned between",
                        StringComparison.Ordinal
                    )
            );
        }
    }

    [Fact]
    public void Feeler_TriedAgainAfterATurn_IsSettled()
    {
        var outcome = Judge(
            Taught,
            Feeler("left", "0.001 in", true),
            Feeler("left", "0.001 in", false),
            Feeler("right", "0.001 in", false),
            Open(Side.Both, 1),
            Feeler("left", "0.001 in", true),
            Feeler("left", "0.0015 in", false),
            Feeler("right", "0.001 in", true),
            Feeler("right", "0.0015 in", false)
        );

        Assert.Equal(Verdict.Met, outcome.Verdict);
    }

    [Fact]
    public void Feeler_TakenBack_IsSettledAndTold()
    {
        var outcome = Judge(
            Taught,
            [
                Feeler("left", "0.001 in", false) with
                {
                    Withdrawn = "jammed on a burr of grass",
                },
                Feeler("left", "0.001 in", true),
                Feeler("left", "0.0015 in", false),
                .. Right,
            ]
        );

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.Contains(
            "left (51 mm): taken back, and counts for nothing: 0.001 in feeler does not pass (jammed on a burr of grass)",
            outcome.Notices
        );
    }

    /// <summary>0.003 in passes twice, which is too wide, and once did not: out all the same, and nothing to turn by.</summary>
    [Fact]
    public void Feeler_ThatShowsABreachTwiceRunning_IsOut()
    {
        var outcome = Judge(
            Limit,
            [
                Feeler("left", "0.003 in", false),
                Feeler("left", "0.003 in", true),
                Feeler("left", "0.003 in", true),
                .. Right,
            ]
        );

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.IsType<Remedy.ReadAgain>(outcome.Remedy);
    }

    /// <summary>0.002 in passes and 0.001 in does not: trying the second twice more leaves both standing.</summary>
    [Fact]
    public void Feelers_OfWhichOneWasRepeated_StayInContradiction()
    {
        var place = Left(
            Frame(
                Feeler("left", "0.001 in", false),
                Feeler("left", "0.002 in", true),
                Feeler("left", "0.002 in", true)
            ),
            MeasuredQuantity.Clearance,
            51m
        );

        Assert.Equal((KnownState.Conflicting, FindingReason.Conflicting), (place.State, place.Doubt));
        Assert.NotNull(place.FeelerContradiction);
        Assert.IsType<LengthInterval>(place.Knowledge);
    }
}
