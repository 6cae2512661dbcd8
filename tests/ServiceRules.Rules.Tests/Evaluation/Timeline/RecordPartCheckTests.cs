using ServiceRules.Domain.Records;
using ServiceRules.Domain.Timeline;
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

    /// <summary>Found at nine, put right at half past: what was run between, and what for.</summary>
    [Theory]
    [InlineData("09:10 machine_started tech-01", Verdict.NotMet)]
    [InlineData("08:50 machine_started tech-01\n08:55 machine_shut_down tech-01", Verdict.Met)]
    [InlineData("09:40 machine_started tech-01", Verdict.Met)]
    [InlineData("09:10 test_energised tech-01\n09:12 test_ended tech-01", Verdict.Met)]
    [InlineData(
        "09:10 test_energised tech-01\n09:11 energised_task_performed tech-01\n09:12 test_ended tech-01",
        Verdict.NotMet
    )]
    [InlineData(
        "09:10 machine_started tech-01\n09:11 cut_outs_proved tech-01\n09:12 machine_shut_down tech-01",
        Verdict.Unproven
    )]
    [InlineData("09:10 machine_started tech-01\n09:31 cut_outs_proved tech-01", Verdict.NotMet)]
    [InlineData(
        "09:05 machine_started tech-01\n09:06 machine_shut_down tech-01\n09:10 machine_started tech-01\n09:11 cut_outs_proved tech-01",
        Verdict.NotMet
    )]
    // In the very minute: which came first nobody can tell.
    [InlineData("09:00 machine_started tech-01", Verdict.Unproven)]
    public void Evaluate_RunWithADefectOpen_IsNotMetUnlessToFindOrProveIt(string run, Verdict verdict)
    {
        var outcome = Judge(
            new SafetyCase().With(
                "09:00 safety_defect_found tech-01\n"
                    + (
                        run.Contains("09:31", StringComparison.Ordinal)
                        || run.Contains("09:40", StringComparison.Ordinal)
                            ? "09:30 safety_defect_closed tech-01\n" + run
                            : run + "\n09:30 safety_defect_closed tech-01"
                    )
            ),
            RequiredPart.SafetyDefectsClosed
        );

        Assert.Equal(verdict, outcome.Verdict);
    }

    /// <summary>On a job that goes on a start tells at once, though the defect may still be mended.</summary>
    [Fact]
    public void Evaluate_StartedWithADefectOpenOnAnOpenJob_IsNotMet()
    {
        var outcome = Judge(
            Open.With("09:00 safety_defect_found tech-01\n09:10 machine_started tech-01"),
            RequiredPart.SafetyDefectsClosed
        );

        Assert.Equal((Verdict.NotMet, FindingReason.WrongOrder), (outcome.Verdict, outcome.Reason));
        Assert.Contains("/timeline/1", outcome.Evidence);
    }

    /// <summary>Guards that the bench log finds faulty are a defect, from that time until they are mended.</summary>
    [Theory]
    [InlineData("09:10 machine_started tech-01", "08:40", Verdict.NotMet)]
    [InlineData("08:50 machine_started tech-01", "08:40", Verdict.Met)]
    [InlineData("09:25 machine_started tech-01", "08:40", Verdict.Met)]
    [InlineData("09:10 test_energised tech-01\n09:12 test_ended tech-01", "08:40", Verdict.Met)]
    // Entered after a reading of a later time: when it was found is a question.
    [InlineData("09:10 machine_started tech-01", "09:05", Verdict.Unproven)]
    public void Evaluate_RunWithGuardsFoundFaulty_IsNotMet(string run, string before, Verdict verdict)
    {
        var unit = new UnitWork
        {
            Id = new("U-1"),
            Sheet = new("sheet"),
            Entries =
            [
                new PartFitted { Part = PartKind.Seal, At = Time(before) },
                new Reading
                {
                    Quantity = MeasuredQuantity.Guards,
                    Observed = new Observation.Seen(Condition.Faulty),
                    At = Time("09:00"),
                },
                new PartFitted { Part = PartKind.Guard, At = Time("09:20") },
            ],
        };

        var outcome = Judge(
            new SafetyCase() with
            {
                Entries = new SafetyCase().With(run).Entries,
                Units = [unit],
            },
            RequiredPart.SafetyDefectsClosed
        );

        Assert.Equal(verdict, outcome.Verdict);
        Assert.Equal(
            verdict != Verdict.Met,
            outcome.Evidence.Contains("/units/0/entries/1", StringComparer.Ordinal)
        );
    }

    private static RecordedTime Time(string at) => RecordedTime.Parse($"2026-04-13T{at}:00+01:00").OrThrow();

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
