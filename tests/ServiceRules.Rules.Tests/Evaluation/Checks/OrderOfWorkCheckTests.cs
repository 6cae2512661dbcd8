using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using static ServiceRules.Rules.Tests.Evaluation.Sample;

namespace ServiceRules.Rules.Tests.Evaluation.Checks;

public class OrderOfWorkCheckTests
{
    private static readonly Check Order = new Check.OrderOfWork([
        AdjusterKind.Clearance,
        AdjusterKind.Height,
    ]);

    [Fact]
    public void Evaluate_InOrder_IsMet()
    {
        Assert.Equal(Verdict.Met, Judge(Order, Open(Side.Both, 1), Moved(AdjusterKind.Height)).Verdict);
    }

    [Fact]
    public void Evaluate_ClearanceAfterHeight_IsNotMetUnlessTheHeightIsReadAgain()
    {
        var broken = Judge(Order, Moved(AdjusterKind.Height), Open(Side.Both, 1));
        var readAgain = Judge(
            Order,
            Moved(AdjusterKind.Height),
            Open(Side.Both, 1),
            Height("left", "4.00 mm")
        );

        Assert.Equal((Verdict.NotMet, FindingReason.WrongOrder), (broken.Verdict, broken.Reason));
        Assert.Equal(Verdict.Met, readAgain.Verdict);
    }

    [Fact]
    public void Evaluate_OutOfOrderButTheSheetCarriesTheReading_IsMet()
    {
        // Two clearance steps only widen a height that was read after it was set; three make it void.
        BenchEntry[] set = [Moved(AdjusterKind.Height), Height("left", "4.00 mm")];

        Assert.Equal(Verdict.Met, Judge(Order, [.. set, Open(Side.Both, 2)]).Verdict);
        Assert.Equal(Verdict.NotMet, Judge(Order, [.. set, Open(Side.Both, 3)]).Verdict);
    }

    [Fact]
    public void Evaluate_TimesAgainstTheOrderWrittenDown_ProveNothing()
    {
        var outcome = Judge(
            Order,
            Open(Side.Both, 1) with
            {
                At = At("2026-04-13T10:00:00Z"),
            },
            Moved(AdjusterKind.Height) with
            {
                At = At("2026-04-13T09:00:00Z"),
            }
        );

        Assert.Equal((Verdict.Unproven, FindingReason.NotCredible), (outcome.Verdict, outcome.Reason));
    }

    [Fact]
    public void Evaluate_NothingTurned_DoesNotApply()
    {
        Assert.Equal(Verdict.NotApplicable, Judge(Order).Verdict);
    }

    [Fact]
    public void Evaluate_OutOfOrderAndReadTwoWaysSince_IsNotMet()
    {
        var outcome = Judge(
            Order,
            Moved(AdjusterKind.Height),
            Open(Side.Both, 1),
            Height("left", "4.00 mm"),
            Height("left", "4.50 mm")
        );

        Assert.Equal((Verdict.NotMet, FindingReason.WrongOrder), (outcome.Verdict, outcome.Reason));
    }
}
