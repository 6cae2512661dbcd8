using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Application.Tests.SafeWork;

/// <summary>A complaint of somebody hurt or of a cut-out that fails: a safety defect that nobody entered.</summary>
public sealed class ComplaintTests
{
    private const string Fails = "seat switch does not stop the reels";

    [Theory]
    [InlineData(Fails)]
    [InlineData("operator lost a fingertip clearing the reel")]
    [InlineData("user was hurt by the reel on Tuesday")]
    [InlineData("cut-outs bridged when it came in")]
    [InlineData("reels keep turning when the driver gets up")]
    [InlineData("injury to an operator, see the file")]
    public void Complaint_OfHurtOrOfAFailedCutOut_NothingEntered_IsHeld(string complaint) =>
        EditedJob
            .Of("height-check")
            .Record("complaint", complaint)
            .IsKept(Disposition.Hold, "defects-closed", complaint);

    [Theory]
    [InlineData("white tips on 4 and 7")]
    [InlineData("unit 2 stopped, branch in the reel")]
    [InlineData("nobody was hurt, reel jammed")]
    [InlineData("no injury, no damage")]
    [InlineData("seat switch replaced last week, cuts unevenly since")]
    [InlineData("does not cut on the left hand side")]
    [InlineData("cut is ragged, left hand unit")]
    [InlineData("engine keeps cutting out when hot")]
    public void Complaint_OfTheCut_MayGoOut(string complaint) =>
        EditedJob.Of("height-check").Record("complaint", complaint).MayGoOut();

    [Fact]
    public void Complaint_OfAFailedCutOut_EnteredAndFoundToBeNone_MayGoOut() =>
        EditedJob
            .Of("height-check")
            .Record("complaint", Fails)
            .With(
                "safety_defect_found",
                "08:11",
                "tech-02",
                """{ "reason": "seat switch, see the complaint" }"""
            )
            .With("safety_defect_closed", "08:29", "tech-02", """{ "method": "new seat switch fitted" }""")
            .MayGoOut();
}
