using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

/// <summary>A safety defect that is put right in less time than it takes to put anything right.</summary>
public sealed class DefectPutRightTooSoonTests
{
    private const string Found = "09:00:10 safety_defect_found tech-01\n";

    [Theory]
    [InlineData("09:00:11 safety_defect_closed tech-01", Verdict.Unproven)]
    [InlineData("09:00:24 safety_defect_closed tech-01", Verdict.Unproven)]
    [InlineData("09:00:11 safety_defect_closed tech-02", Verdict.Unproven)]
    [InlineData("09:00:25 safety_defect_closed tech-01", Verdict.Met)]
    [InlineData("09:00:11 safety_defect_closed tech-01 mark=late-entry", Verdict.Met)]
    [InlineData("09:00:11 safety_defect_closed tech-01 mark=transcription", Verdict.Met)]
    [InlineData("09:01 safety_defect_closed tech-01", Verdict.Met)]
    public void Evaluate_PutRightAfterItWasFound_TakesTime(string closed, Verdict expected) =>
        Assert.Equal(expected, Judge(Found + closed).Verdict);

    /// <summary>Where neither says seconds they may be a minute apart.</summary>
    [Theory]
    [InlineData("09:00 safety_defect_found tech-01\n09:00 safety_defect_closed tech-01", Verdict.Met)]
    [InlineData("09:00 safety_defect_found tech-01\n09:00:01 safety_defect_closed tech-01", Verdict.Unproven)]
    [InlineData(
        "09:00:59 safety_defect_found tech-01 mark=late-entry\n09:01 safety_defect_closed tech-01",
        Verdict.Met
    )]
    public void Evaluate_OnlyMinutesNotedOrLabelled_IsNotDoubted(string timeline, Verdict expected) =>
        Assert.Equal(expected, Judge(timeline).Verdict);

    /// <summary>Entered together, the first found is the first put right.</summary>
    [Fact]
    public void Evaluate_TwoPutRightInOneGo_AreEachHeldAgainstTheirOwn() =>
        Assert.Equal(
            Verdict.Met,
            Judge(
                Found
                    + "09:00:30 safety_defect_found tech-01\n09:20:00 safety_defect_closed tech-01\n09:20:01 safety_defect_closed tech-01"
            ).Verdict
        );

    [Fact]
    public void Evaluate_PutRightInASecond_TellsBothTimesAndTheLeast()
    {
        var outcome = Judge(Found + "09:00:11 safety_defect_closed tech-01");

        Assert.Equal(
            "The record shows a safety defect found at 09:00:10 by tech-01, and put right at 09:00:11 by tech-01, 1 second later: to put anything right takes 15 seconds at the least.",
            outcome.Statement
        );
        Assert.Equal(FindingReason.NotCredible, outcome.Reason);
        Assert.Equal<string>(["/timeline/0", "/timeline/1"], outcome.Evidence);
    }

    private static CheckOutcome Judge(string timeline) =>
        new SafetyCase().With(timeline).Judge(new Check.RecordPart(RequiredPart.SafetyDefectsClosed));
}
