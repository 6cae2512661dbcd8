using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

/// <summary>What rechecks of pressure read, against the limit that the procedure states.</summary>
public sealed class RecheckReadingsTests
{
    private static readonly SafetyCase Job = Limited(30);

    [Theory]
    [InlineData("10_bar", Verdict.Met)]
    [InlineData("1000_kPa", Verdict.Met)]
    [InlineData("10.1_bar", Verdict.NotMet)]
    [InlineData("146_psi", Verdict.NotMet)]
    public void Judge_ReadingAtARecheck_IsHeldAgainstTheLimitInAnyUnit(string read, Verdict expected) =>
        Assert.Equal(
            expected,
            Judge(
                Job,
                $"08:40 stored_energy_rechecked tech-01 source=hydraulic pressure={read}\n08:41 gloves_worn tech-01\n"
            ).Verdict
        );

    [Fact]
    public void Judge_ReadingAboveTheLimit_NamesReadingTimePersonAndLimit()
    {
        var outcome = Judge(
            Job,
            "08:40 stored_energy_rechecked tech-01 source=hydraulic pressure=38_bar\n08:50 gloves_worn tech-01\n"
        );

        Assert.Equal(FindingReason.Unprotected, outcome.Reason);
        Assert.StartsWith(
            "The record shows hydraulic pressure read at 38 bar at 08:40 by tech-01, above the 10 bar that are allowed",
            outcome.Statement,
            StringComparison.Ordinal
        );
        Assert.Equal("/timeline/2", Assert.Single(outcome.Evidence));
    }

    /// <summary>The clause table: a rising reading over the limit with no action is the breach; the action is hands out.</summary>
    [Theory]
    [InlineData("08:41 work_stopped tech-01\n", Verdict.Met)]
    [InlineData("08:42 work_stopped tech-01\n", Verdict.Met)]
    [InlineData("", Verdict.NotMet)]
    [InlineData("08:43 work_stopped tech-01\n", Verdict.NotMet)]
    [InlineData("08:41 gloves_worn tech-01\n08:42 work_stopped tech-01\n", Verdict.NotMet)]
    [InlineData("08:41 stored_energy_released tech-01 source=hydraulic\n", Verdict.NotMet)]
    [InlineData(
        "08:41 stored_energy_released tech-01 source=hydraulic pressure=0_bar\n08:42 work_stopped tech-01\n",
        Verdict.NotMet
    )]
    [InlineData("08:41 work_stopped tech-01\n08:42 work_started tech-01\n", Verdict.NotMet)]
    [InlineData(
        "08:41 work_stopped tech-01\n08:42 stored_energy_released tech-01 source=hydraulic\n08:43 work_started tech-01\n",
        Verdict.NotMet
    )]
    [InlineData(
        "08:41 work_stopped tech-01\n08:42 stored_energy_rechecked tech-01 source=hydraulic pressure=0_bar\n08:43 work_started tech-01\n",
        Verdict.NotMet
    )]
    [InlineData(
        "08:41 work_stopped tech-01\n08:42 stored_energy_released tech-01 source=hydraulic pressure=38_bar\n08:43 isolation_verified tech-01 source=hydraulic pressure=0_bar\n08:44 work_started tech-01\n",
        Verdict.NotMet
    )]
    [InlineData(
        "08:41 work_stopped tech-01\n08:42 stored_energy_released tech-01 source=hydraulic pressure=0_bar\n08:43 work_started tech-01\n",
        Verdict.Met
    )]
    [InlineData(
        "08:41 work_stopped tech-01\n08:42 stored_energy_released tech-01 source=hydraulic\n08:43 isolation_verified tech-01 source=hydraulic pressure=10_bar\n08:44 work_started tech-01\n",
        Verdict.Met
    )]
    public void Judge_ReadingAboveTheLimit_IsMadeGoodByHandsOutAtOnceAndReleaseBeforeTheyGoInAgain(
        string then,
        Verdict expected
    ) =>
        Assert.Equal(
            expected,
            Judge(
                Job,
                "08:40 stored_energy_rechecked tech-01 source=hydraulic pressure=38_bar\n" + then
            ).Verdict
        );

    [Theory]
    [InlineData("08:41 work_stopped tech-02\n08:42 work_stopped tech-01\n", Verdict.Met)]
    [InlineData("08:41 work_stopped tech-02\n", Verdict.NotMet)]
    public void Judge_ReadingAboveTheLimit_AsksForTheHandsOfEverybody(string then, Verdict expected) =>
        Assert.Equal(
            expected,
            Judge(
                Job,
                "08:25 work_started tech-02\n08:40 stored_energy_rechecked tech-01 source=hydraulic pressure=38_bar\n"
                    + then
                    + "08:49 work_stopped tech-02\n"
            ).Verdict
        );

    [Theory]
    [InlineData("stored_energy_released")]
    [InlineData("isolation_verified")]
    public void Judge_PressureTooHighToldOtherwiseThanAtARecheck_CountsAsWell(string by) =>
        Assert.Equal(
            Verdict.NotMet,
            Judge(Job, $"08:40 {by} tech-01 source=hydraulic pressure=140_bar\n").Verdict
        );

    [Fact]
    public void Judge_LeftAboveTheLimitWithHandsOut_IsToldSo() =>
        Assert.Contains(
            "hydraulic pressure last read at 38 bar, above the 10 bar that are allowed, and no hands in after that",
            Judge(
                Job,
                "08:40 stored_energy_rechecked tech-01 source=hydraulic pressure=38_bar\n08:41 work_stopped tech-01\n"
            ).Statement,
            StringComparison.Ordinal
        );

    /// <summary>What the gauge still showed was not released, and not proven dead, whatever the entry is called.</summary>
    [Theory]
    [InlineData("", "", Verdict.Met, Verdict.Met)]
    [InlineData("10_bar", "", Verdict.Met, Verdict.Met)]
    [InlineData("140_bar", "", Verdict.NotMet, Verdict.Met)]
    [InlineData("", "2100_psi", Verdict.NotMet, Verdict.NotMet)]
    public void Judge_PressureReadBeforeTheWork_ShowsWhetherAnythingWasReleased(
        string atRelease,
        string atProof,
        Verdict released,
        Verdict proven
    )
    {
        var job = Job.With(
            $"08:17 stored_energy_released tech-01 source=hydraulic{Read(atRelease)}\n08:18 stored_energy_released tech-01 source=gravity\n08:19 isolation_verified tech-01 source=all{Read(atProof)}\n08:20 work_started tech-01\n08:30 work_stopped tech-01"
        );

        Assert.Equal(released, job.Duty(EnergyDuty.StoredEnergyReleased).Verdict);
        Assert.Equal(proven, job.Duty(EnergyDuty.IsolationVerified).Verdict);
    }

    [Fact]
    public void Judge_ReleaseReadAboveTheLimit_TellsThePressure() =>
        Assert.StartsWith(
            "The record does not show the stored energy released for hydraulic pressure (08:17: read at 140 bar, above the 10 bar that are allowed) before work started",
            Job.With(
                    "08:17 stored_energy_released tech-01 source=hydraulic pressure=140_bar\n08:18 stored_energy_released tech-01 source=gravity\n08:20 work_started tech-01\n08:30 work_stopped tech-01"
                )
                .Duty(EnergyDuty.StoredEnergyReleased)
                .Statement,
            StringComparison.Ordinal
        );

    [Fact]
    public void Judge_ReleasedAgainAfterAReadingTooHigh_IsReleased() =>
        Assert.Equal(
            Verdict.Met,
            Job.With(
                    "08:16 stored_energy_released tech-01 source=hydraulic pressure=140_bar\n08:17 stored_energy_released tech-01 source=all pressure=0_bar\n08:20 work_started tech-01\n08:30 work_stopped tech-01"
                )
                .Duty(EnergyDuty.StoredEnergyReleased)
                .Verdict
        );

    private static string Read(string pressure) =>
        pressure.Length == 0 ? string.Empty : $" pressure={pressure}";

    [Fact]
    public void Judge_RecheckWithoutReading_IsUnproven()
    {
        var outcome = Judge(Job, "08:40 stored_energy_rechecked tech-01 source=hydraulic\n");

        Assert.Equal((Verdict.Unproven, FindingReason.StepMissing), (outcome.Verdict, outcome.Reason));
        Assert.Contains(
            "checked again at 08:40 without what was read",
            outcome.Statement,
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("9_bar", Verdict.Met)]
    [InlineData("11_bar", Verdict.NotMet)]
    public void Judge_LimitWithoutATimeForRechecks_IsHeldAgainstWhatWasRead(string read, Verdict expected)
    {
        var outcome = Judge(
            Limited(null),
            $"08:40 stored_energy_rechecked tech-01 source=hydraulic pressure={read}\n08:41 gloves_worn tech-01\n"
        );

        Assert.Equal(expected, outcome.Verdict);
        Assert.Contains(
            "State in the procedure how often",
            Assert.Single(outcome.Notices),
            StringComparison.Ordinal
        );
    }

    /// <summary>A check by somebody who may not verify is none, as before the work.</summary>
    [Theory]
    [InlineData("tech-01", Verdict.Met)]
    [InlineData("op-01", Verdict.NotMet)]
    [InlineData("nobody-9", Verdict.NotMet)]
    public void Judge_RecheckBy_IsHeldAgainstTheRegister(string by, Verdict expected)
    {
        var outcome = Judge(
            Limited(20) with
            {
                Register = [Registers.Trained("tech-01"), new(new("op-01"), Authorised: false, null, null)],
            },
            $"08:36 stored_energy_rechecked {by} source=hydraulic pressure=0_bar\n"
        );

        Assert.Equal(expected, outcome.Verdict);
        Assert.Equal(
            expected == Verdict.NotMet,
            outcome.Notices.Any(told =>
                told.StartsWith($"The check at 08:36 by {by}, whom the register", StringComparison.Ordinal)
            )
        );
    }

    [Fact]
    public void Judge_PressureTooHighReadByOneNotAuthorised_StillCounts() =>
        Assert.Equal(
            Verdict.NotMet,
            Judge(
                Job with
                {
                    Register =
                    [
                        Registers.Trained("tech-01"),
                        new(new("op-01"), Authorised: false, null, null),
                    ],
                },
                "08:30 stored_energy_rechecked op-01 source=hydraulic pressure=38_bar\n08:31 stored_energy_rechecked tech-01 source=hydraulic pressure=0_bar\n"
            ).Verdict
        );

    /// <summary>Proven dead again in place of a check of the pressure tells nothing of the pressure.</summary>
    [Theory]
    [InlineData(" pressure=0_bar", Verdict.Met)]
    [InlineData("", Verdict.Unproven)]
    public void Judge_ProofInPlaceOfARecheck_HasToTellAReading(string read, Verdict expected)
    {
        var outcome = Judge(
            Limited(20),
            $"08:35 isolation_verified tech-01 source=all{read}\n" + "08:45 gloves_worn tech-01\n"
        );

        Assert.Equal(expected, outcome.Verdict);
        Assert.Equal(
            expected == Verdict.Unproven,
            outcome.Statement.Contains("proven dead again at 08:35 in place of", StringComparison.Ordinal)
        );
    }

    [Theory]
    [InlineData("08:35 isolation_verified tech-01 source=all\n", 40)]
    [InlineData("08:35 isolation_verified tech-01 source=all\n", null)]
    [InlineData(
        "08:34 isolation_verified tech-01 source=all\n08:35 stored_energy_rechecked tech-01 source=hydraulic pressure=0_bar\n",
        20
    )]
    public void Judge_ProofThatNoRecheckIsMissedWithout_NeedsNoReading(string during, int? minutes) =>
        Assert.NotEqual(Verdict.Unproven, Judge(Limited(minutes), during).Verdict);

    /// <summary>What was let off or locked anew since hands were in is proven as the first time.</summary>
    [Theory]
    [InlineData("08:32 stored_energy_released tech-01 source=hydraulic\n", Verdict.Met)]
    [InlineData("08:32 lock_applied tech-01 source=engine_start lock=L-11\n", Verdict.Met)]
    [InlineData("08:32 stored_energy_released tech-01 source=gravity\n", Verdict.Unproven)]
    [InlineData("", Verdict.Unproven)]
    public void Judge_ProofAfterABreak_IsTheFirstOfAnIsolationOrARecheck(string anew, Verdict expected) =>
        Assert.Equal(
            expected,
            Judge(
                Limited(20),
                $"08:30 work_stopped tech-01\n{anew}08:35 isolation_verified tech-01 source=all\n08:36 work_started tech-01\n"
            ).Verdict
        );

    private static SafetyCase Limited(int? minutes) =>
        new SafetyCase() with
        {
            Procedure = SafetyCase.RideOn with
            {
                Sources =
                [
                    SafetyCase.Source("hydraulic", "hydraulic pressure", "valve", true, true, minutes) with
                    {
                        RecheckLimit = Pressure.Parse("10 bar").OrThrow(),
                    },
                    SafetyCase.Source("gravity", "raised unit", stored: true),
                ],
            },
        };

    private static CheckOutcome Judge(SafetyCase job, string during) =>
        job.With(
                "08:19 isolation_verified tech-01 source=all\n08:20 work_started tech-01\n"
                    + during
                    + "08:50 work_stopped tech-01"
            )
            .Duty(EnergyDuty.BuildUpRechecked);
}
