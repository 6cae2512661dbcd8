using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

public sealed class RecordPartCheckTests
{
    private static readonly SafetyCase Open = new() { IsSignedOff = false };

    [Theory]
    [InlineData("", Verdict.Met)]
    [InlineData("09:00 safety_defect_found tech-01", Verdict.NotMet)]
    [InlineData("09:00 safety_defect_found tech-01\n09:20 safety_defect_closed tech-01", Verdict.Met)]
    [InlineData("09:00 safety_defect_closed tech-01\n09:20 safety_defect_found tech-01", Verdict.NotMet)]
    [InlineData(
        "09:00 safety_defect_found tech-01\n09:10 safety_defect_found tech-01\n09:20 safety_defect_closed tech-01",
        Verdict.NotMet
    )]
    public void Evaluate_SafetyDefects_AreEachPutRight(string timeline, Verdict verdict) =>
        Assert.Equal(
            verdict,
            Judge(new SafetyCase().With(timeline), RequiredPart.SafetyDefectsClosed).Verdict
        );

    [Fact]
    public void Evaluate_DefectOpenOnAnOpenJob_IsNotYetUntilItIsHandedBack()
    {
        const string found = "09:00 safety_defect_found tech-01\n";
        var held = Judge(Open.With(found), RequiredPart.SafetyDefectsClosed);
        var handedBack = Judge(
            Open.With(found + "09:30 handed_back tech-01"),
            RequiredPart.SafetyDefectsClosed
        );

        Assert.Equal((Verdict.Unproven, FindingReason.InProgress), (held.Verdict, held.Reason));
        Assert.Equal((Verdict.NotMet, FindingReason.Faulty), (handedBack.Verdict, handedBack.Reason));
    }

    [Theory]
    [InlineData("09:30 handed_back tech-01\n09:40 safety_defect_closed tech-01", Verdict.NotMet)]
    [InlineData("09:40 safety_defect_closed tech-01\n09:50 handed_back tech-01", Verdict.Met)]
    [InlineData("09:40 safety_defect_closed tech-01\n09:40 handed_back tech-01", Verdict.Met)]
    [InlineData("09:40 handed_back tech-01\n09:40 safety_defect_closed tech-01", Verdict.Met)]
    [InlineData(
        "09:30 handed_back tech-01\n09:40 safety_defect_closed tech-01\n09:50 handed_back tech-01",
        Verdict.Met
    )]
    public void Evaluate_DefectPutRightOnlyAfterTheMachineWentBack_IsNotMet(
        string timeline,
        Verdict verdict
    ) =>
        Assert.Equal(
            verdict,
            Judge(
                new SafetyCase().With(
                    "08:50 handed_back tech-01\n09:00 safety_defect_found tech-01\n" + timeline
                ),
                RequiredPart.SafetyDefectsClosed
            ).Verdict
        );

    [Theory]
    [InlineData("09:00 blockage_cleared_with_tool tech-01", Verdict.Met)]
    [InlineData("09:00 blockage_cleared_by_hand tech-01", Verdict.NotMet)]
    [InlineData(
        "09:00 blockage_cleared_with_tool tech-01\n09:10 blockage_cleared_by_hand tech-01",
        Verdict.NotMet
    )]
    [InlineData("", Verdict.Unproven)]
    public void Evaluate_Blockage_IsClearedWithAToolOnly(string timeline, Verdict verdict) =>
        Assert.Equal(verdict, Judge(new SafetyCase().With(timeline), RequiredPart.BlockageByTool).Verdict);

    [Fact]
    public void Evaluate_SignOff_IsThereOrTheJobIsOpen()
    {
        Assert.Equal(Verdict.Met, Judge(new SafetyCase(), RequiredPart.SignOff).Verdict);
        Assert.Equal(FindingReason.InProgress, Judge(Open, RequiredPart.SignOff).Reason);
    }

    [Fact]
    public void Evaluate_NoFollowUp_IsUnproven() =>
        Assert.Equal(Verdict.Unproven, Judge(new SafetyCase(), RequiredPart.FollowUp).Verdict);

    private static Rules.Evaluation.CheckOutcome Judge(SafetyCase safety, RequiredPart part) =>
        safety.Judge(new Check.RecordPart(part));
}
