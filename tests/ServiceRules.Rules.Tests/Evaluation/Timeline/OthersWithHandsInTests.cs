using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

/// <summary>What others do with the machine while somebody has hands in.</summary>
public sealed class OthersWithHandsInTests
{
    private const string Whole = MakeSafe.Seat + MakeSafe.Isolation + MakeSafe.Work + MakeSafe.After;

    private static readonly SafetyCase Job = new()
    {
        People =
        [
            SafetyCase.Person("tech-01"),
            SafetyCase.Person("op-01", JobRole.Affected),
            SafetyCase.Person("lead-01", JobRole.Leads),
        ],
    };

    [Theory]
    [InlineData("09:00 handed_back tech-01", Verdict.NotMet)]
    [InlineData("08:20 handed_back tech-01", Verdict.Unproven)]
    [InlineData("09:40 handed_back tech-01", Verdict.Met)]
    [InlineData("09:41 handed_back tech-01", Verdict.Met)]
    // Handed back between the proof and the work that relies on it.
    [InlineData("08:19 handed_back tech-01", Verdict.Unproven)]
    [InlineData("08:16 handed_back tech-01", Verdict.Met)]
    public void Protection_HandedBack_OnlyWithAllHandsOut(string entry, Verdict expected) =>
        Assert.Equal(expected, Judge(Job, entry).Verdict);

    [Fact]
    public void Protection_HandedBackWithHandsIn_TellsWhoseAndWhen()
    {
        var outcome = Judge(Job, "09:00 handed_back lead-01");

        Assert.Equal(
            "The record shows the machine handed back at 09:00 by lead-01 while tech-01 was at work: whoever has it back may start it.",
            outcome.Statement
        );
        Assert.Equal(2, outcome.Evidence.Length);
    }

    [Fact]
    public void Protection_HandedBackOnAnOpenJobWithNoEndOfWork_IsUnproven()
    {
        var outcome = (Job with { IsSignedOff = false })
            .With(MakeSafe.Isolation + "08:20 work_started tech-01\n09:00 handed_back tech-01")
            .Judge(new Check.Protection());

        Assert.Equal((Verdict.Unproven, FindingReason.InProgress), (outcome.Verdict, outcome.Reason));
    }

    [Theory]
    [InlineData("09:00 drive_disengaged op-01", Verdict.Unproven)]
    [InlineData("09:00 seen_at_rest op-01", Verdict.Unproven)]
    [InlineData("09:00 seen_at_rest lead-01", Verdict.Met)]
    [InlineData("09:00 drive_disengaged tech-01", Verdict.Met)]
    [InlineData("08:19 drive_disengaged op-01", Verdict.Met)]
    [InlineData("09:41 seen_at_rest op-01", Verdict.Met)]
    public void Protection_TheUserAtTheControls_OnlyWithAllHandsOut(string entry, Verdict expected) =>
        Assert.Equal(expected, Judge(Job, entry).Verdict);

    /// <summary>Whoever switches it off once more says that it was on in between.</summary>
    [Theory]
    [InlineData("09:00 machine_shut_down tech-01", Verdict.Unproven)]
    [InlineData("09:00 key_removed tech-01", Verdict.Unproven)]
    [InlineData("09:00 isolator_operated tech-01 source=engine_start", Verdict.Unproven)]
    [InlineData("08:20 machine_shut_down tech-01", Verdict.Met)]
    [InlineData("09:40 key_removed tech-01", Verdict.Met)]
    [InlineData("08:19 isolator_operated tech-01 source=engine_start", Verdict.Met)]
    public void Protection_SwitchedOffAgain_OnlyWithAllHandsOut(string entry, Verdict expected) =>
        Assert.Equal(expected, Judge(Job, entry).Verdict);

    /// <summary>A latch that holds units up has no isolator in the procedure; let on, what it held may come down.</summary>
    [Theory]
    [InlineData("09:00 isolator_operated tech-01 source=gravity position=on", Verdict.NotMet)]
    [InlineData("09:00 isolator_operated lead-01 source=gravity position=on", Verdict.NotMet)]
    [InlineData("09:41 isolator_operated tech-01 source=gravity position=on", Verdict.Met)]
    [InlineData("09:00 isolator_operated tech-01 source=gravity", Verdict.Met)]
    public void Protection_EnergyLetOnThatNoIsolatorHolds_OnlyWithAllHandsOut(
        string entry,
        Verdict expected
    ) => Assert.Equal(expected, Judge(Job, entry).Verdict);

    [Fact]
    public void Protection_SwitchedOffAgain_TellsBoth()
    {
        var outcome = Judge(Job, "09:00 machine_shut_down tech-01");

        Assert.Equal(
            "The record shows the machine shut down at 09:00 by tech-01 while tech-01 was at work, and at 08:03 by tech-01 before: it does not show that it stayed off in between.",
            outcome.Statement
        );
        Assert.Equal(2, outcome.Evidence.Length);
    }

    /// <summary>Pressure let off moves what it held: not by somebody with no part in the work while hands are in.</summary>
    [Theory]
    [InlineData("09:00", "op-01", Verdict.Unproven)]
    [InlineData("09:00", "op-09", Verdict.Unproven)]
    [InlineData("09:00", "op-08", Verdict.Unproven)]
    [InlineData("09:00", "lead-01", Verdict.Met)]
    [InlineData("09:00", "lead-02", Verdict.Met)]
    [InlineData("09:00", "tech-01", Verdict.Met)]
    [InlineData("08:16", "op-01", Verdict.Met)]
    [InlineData("08:20", "op-01", Verdict.Met)]
    public void Protection_StoredEnergyLetOff_ByNobodyWithoutAPartInTheWork(
        string at,
        string by,
        Verdict expected
    ) =>
        Assert.Equal(
            expected,
            Judge(
                Job with
                {
                    Register =
                    [
                        new(new("tech-01"), Authorised: true, null, null),
                        new(new("lead-02"), Authorised: true, null, null),
                        new(new("op-08"), Authorised: false, null, null),
                    ],
                },
                $"{at} stored_energy_released {by} source=hydraulic"
            ).Verdict
        );

    [Fact]
    public void Protection_StoredEnergyLetOffByAnOutsider_TellsWhoAndWhoseHandsWereIn()
    {
        var outcome = Judge(
            Job with
            {
                Register = [new(new("tech-01"), Authorised: true, null, null)],
            },
            "09:00 stored_energy_released op-09 source=hydraulic"
        );

        Assert.Equal(
            "The record shows the stored energy released at 09:00 by op-09, who has no part in the work and whom the register of people does not have, while tech-01 was at work: it does not show who had asked for it, nor hands clear of what it held.",
            outcome.Statement
        );
        Assert.Equal(FindingReason.StepMissing, outcome.Reason);
    }

    private static CheckOutcome Judge(SafetyCase job, string entry) =>
        job.With(Whole + "\n" + entry).Judge(new Check.Protection());
}
