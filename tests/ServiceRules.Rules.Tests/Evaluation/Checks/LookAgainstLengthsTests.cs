using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

/// <summary>A daily look asks for no length, and outvotes none.</summary>
public class LookAgainstLengthsTests
{
    private static readonly Check Look = new Check.Contact(MeasuredQuantity.Clearance);

    [Fact]
    public void Evaluate_AGapReadFarTooWide_IsOutWhateverTheLookSays()
    {
        var outcome = Judge(
            Look,
            Contact(ContactState.None),
            Measured(MeasuredQuantity.Clearance, "left", "0.90 mm")
        );

        Assert.Equal((Verdict.NotMet, FindingReason.OutOfLimit), (outcome.Verdict, outcome.Reason));
        Assert.Contains("left (51 mm) 0.900 mm", outcome.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Evaluate_AThickFeelerThatPasses_IsOutWhateverTheLookSays() =>
        Assert.Equal(
            Verdict.NotMet,
            Judge(Look, Contact(ContactState.None), Feeler("left", "0.020 in", true)).Verdict
        );

    /// <summary>No tolerance is stated, or no gauge named: not proven, and told.</summary>
    [Theory]
    [InlineData("FG-02")]
    [InlineData("FG-09")]
    public void Evaluate_AThickFeelerOfAnUnknownSet_IsUnproven(string with) =>
        Assert.Equal(
            Verdict.Unproven,
            Judge(Look, Contact(ContactState.None), Feeler("left", "0.020 in", true, with)).Verdict
        );

    /// <summary>By the line through both stations the right end touches: -0.003 mm, by a gauge that does not prove it.</summary>
    [Fact]
    public void Evaluate_ALineThatTouchesAtAnEnd_IsUnproven()
    {
        var outcome = Judge(
            Look,
            Contact(ContactState.None),
            Measured(MeasuredQuantity.Clearance, "left", "0.060 mm", "DG-01"),
            Measured(MeasuredQuantity.Clearance, "right", "0.005 mm", "DG-01")
        );

        Assert.NotEqual(Verdict.Met, outcome.Verdict);
        Assert.Contains("right", outcome.Statement, StringComparison.Ordinal);
    }

    [Fact]
    public void Evaluate_FeelersThatLeaveRoomOnBothSides_LeaveTheLookStanding() =>
        Assert.Equal(
            Verdict.Met,
            Judge(Look, Contact(ContactState.None), Feeler("left", "0.0005 in", true)).Verdict
        );

    [Fact]
    public void Evaluate_AGapInsideItsLimits_LeavesTheLookStanding() =>
        Assert.Equal(
            Verdict.Met,
            Judge(
                Look,
                Feeler("left", "0.001 in", true),
                Feeler("left", "0.0015 in", false),
                Contact(ContactState.None)
            ).Verdict
        );

    [Fact]
    public void Evaluate_LightContactBesideAGapThatWasRead_IsUnproven()
    {
        var frame = FrameBuilder.Build(
            Record(Unit(Feeler("left", "0.020 in", true), Contact(ContactState.Light))),
            Context with
            {
                SettingOrders = [Order with { Schools = [new("sheet-a", ContactSchool.LightContact)] }],
            },
            Book()
        );

        var outcome = Judge(Look, frame);

        Assert.Equal((Verdict.Unproven, FindingReason.Conflicting), (outcome.Verdict, outcome.Reason));
        Assert.Contains(
            "contact was noted where a gap was read",
            outcome.Statement,
            StringComparison.Ordinal
        );
    }
}
