using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

/// <summary>A safety defect put right with no work entered that did it is put right by hand, at the time of its entry.</summary>
public sealed class PutRightByHandTests
{
    private const string Whole = MakeSafe.Seat + MakeSafe.Isolation + MakeSafe.Work + MakeSafe.After;

    private static readonly SafetyCase Job = new()
    {
        People = [SafetyCase.Person("tech-01"), SafetyCase.Person("tech-02", JobRole.Leads)],
    };

    [Theory]
    // In the own work, after it, and by somebody else after it.
    [InlineData("08:30 safety_defect_found tech-01\n09:00 safety_defect_closed tech-01", Verdict.Met)]
    [InlineData("08:30 safety_defect_found tech-01\n09:57 safety_defect_closed tech-01", Verdict.Met)]
    [InlineData("08:30 safety_defect_found tech-01\n09:57 safety_defect_closed tech-02", Verdict.Met)]
    [InlineData("09:57 safety_defect_closed tech-02", Verdict.Met)]
    // Guards that were put back put right what was found of them.
    [InlineData("09:41 safety_defect_found tech-01\n09:46 safety_defect_closed tech-02", Verdict.Met)]
    // Before anything is off, beside the work of another without a lock, and with the locks off again.
    [InlineData("07:40 safety_defect_found tech-01\n07:45 safety_defect_closed tech-01", Verdict.NotMet)]
    [InlineData("08:30 safety_defect_found tech-01\n09:00 safety_defect_closed tech-02", Verdict.Unproven)]
    [InlineData("09:49 safety_defect_found tech-01\n09:51 safety_defect_closed tech-01", Verdict.Unproven)]
    // Under the own locks nothing is asked but the proof.
    [InlineData("09:44 safety_defect_found tech-01\n09:46 safety_defect_closed tech-01", Verdict.Met)]
    [InlineData(
        "07:40 safety_defect_found tech-01\n07:45 safety_defect_closed tech-01 method=hands_out",
        Verdict.Met
    )]
    public void Protection_DefectPutRight_IsJudgedAsHandsWhereNothingElseDidIt(
        string entries,
        Verdict expected
    ) => Assert.Equal(expected, Judge(entries, new Check.Protection()).Verdict);

    [Theory]
    [InlineData(
        "09:53:20 safety_defect_found tech-01\n09:54:30 safety_defect_closed tech-01",
        Verdict.NotMet
    )]
    [InlineData("09:50 safety_defect_found tech-01\n09:54:30 safety_defect_closed tech-01", Verdict.Unproven)]
    // Worked on before the run, and proven mended by it.
    [InlineData(
        "08:30 safety_defect_found tech-01\n09:54:30 safety_defect_closed tech-01",
        Verdict.NotApplicable
    )]
    public void Run_DefectPutRightInIt_IsHandsInTheRun(string entries, Verdict expected) =>
        Assert.Equal(
            expected,
            Judge(entries, new Check.EnergyControl(EnergyDuty.NoHandsWhileEnergised)).Verdict
        );

    [Fact]
    public void Protection_DefectPutRightByHand_SaysThatNothingElseDidIt() =>
        Assert.StartsWith(
            "The record shows a safety defect put right at 07:45 by tech-01, with nothing entered that did it, so by hands at the unit. By then it does not show",
            Judge(
                "07:40 safety_defect_found tech-01\n07:45 safety_defect_closed tech-01",
                new Check.Protection()
            ).Statement,
            StringComparison.Ordinal
        );

    private static CheckOutcome Judge(string entries, Check check) =>
        Job.With(
                Whole.Replace(
                    "09:58 handed_back tech-01",
                    "09:57:30 machine_shut_down tech-01\n09:58 handed_back tech-01",
                    StringComparison.Ordinal
                )
                    + "\n"
                    + entries
            )
            .Judge(check);
}
