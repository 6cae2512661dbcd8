using ServiceRules.Domain.Records;
using ServiceRules.Domain.Remedies;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

/// <summary>A slip is shown by reading again: a breach that is taken back as the last word is none that was put right.</summary>
public class TakenBackTests
{
    private static readonly Check Target = new Check.LimitOnQuantity(
        MeasuredQuantity.HeightOfCut,
        LimitSource.SettingOrder,
        CheckedPlaces.Stations
    );

    private static readonly Check Look = new Check.Contact(MeasuredQuantity.Clearance);

    private static readonly BenchEntry[] Good = [Height("left", "4.00 mm"), Height("right", "4.00 mm")];

    private static Reading Slip(Reading reading) => reading with { Withdrawn = "slip" };

    [Fact]
    public void Length_OutAndNotReadAgain_IsUnprovenAndSaysWhy()
    {
        var outcome = Judge(Target, [.. Good, Slip(Height("left", "40.00 mm"))]);

        Assert.Equal((Verdict.Unproven, FindingReason.Conflicting), (outcome.Verdict, outcome.Reason));
        Assert.Equal(
            "Height of cut: taken back, not read again: 40.00 mm at left (51 mm); by that it would be out",
            outcome.Statement
        );
        Assert.Equal(["51 mm"], Assert.IsType<Remedy.ReadAgain>(outcome.Remedy).Places.AsEnumerable());
        Assert.Contains("/units/0/entries/2", outcome.Evidence);
    }

    [Fact]
    public void Length_InAndNotReadAgain_IsMetAndTold()
    {
        var outcome = Judge(Target, [.. Good, Slip(Height("left", "4.02 mm"))]);

        Assert.Equal(Verdict.Met, outcome.Verdict);
        Assert.True(ToldThoughMet.Is(Assert.Single(outcome.Notices)));
    }

    [Theory]
    [InlineData("left", Verdict.Met)]
    [InlineData("53 mm", Verdict.Met)]
    [InlineData("right", Verdict.Unproven)]
    public void Length_ReadAgain_CountsAtThatPlaceAlone(string again, Verdict verdict)
    {
        var outcome = Judge(Target, [.. Good, Slip(Height("left", "40.00 mm")), Height(again, "4.00 mm")]);

        Assert.Equal(verdict, outcome.Verdict);
        Assert.Contains(outcome.Notices, ToldThoughMet.Is);
    }

    [Fact]
    public void Length_ReadSomewhereOnly_IsNotReadAgainThere() =>
        Assert.Equal(
            Verdict.Unproven,
            Judge(
                Target,
                [.. Good, Slip(Height("left", "40.00 mm")), Height("left", "4.00 mm") with { Station = null }]
            ).Verdict
        );

    [Fact]
    public void Length_TakenBackTwice_IsUnprovenStill() =>
        Assert.Equal(
            Verdict.Unproven,
            Judge(
                Target,
                [.. Good, Slip(Height("left", "40.00 mm")), Slip(Height("left", "4.00 mm"))]
            ).Verdict
        );

    [Fact]
    public void Length_OutAnyway_IsOut() =>
        Assert.Equal(
            Verdict.NotMet,
            Judge(
                Target,
                Height("left", "40.00 mm"),
                Height("right", "4.00 mm"),
                Slip(Height("left", "40.00 mm"))
            ).Verdict
        );

    [Theory]
    [InlineData(null, Verdict.Met)]
    [InlineData("left", Verdict.Unproven)]
    public void Contact_HeavyOverTheWidth_HasToBeLookedAtOverTheWidth(string? again, Verdict verdict) =>
        Assert.Equal(
            verdict,
            Judge(
                Look,
                Contact(ContactState.None),
                Slip(Contact(ContactState.Heavy)),
                Contact(ContactState.None, again)
            ).Verdict
        );

    [Fact]
    public void Contact_HeavyAsTheLastWord_IsUnproven() =>
        Assert.Equal(
            Verdict.Unproven,
            Judge(Look, Contact(ContactState.None), Slip(Contact(ContactState.Heavy))).Verdict
        );
}
