using ServiceRules.Domain;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

/// <summary>One record of a machine held against another that is given with it: tech-01 has hands in from 08:20 to 09:40.</summary>
public sealed class ClearOfOtherRecordsDutyTests
{
    [Fact]
    public void Judge_NoOtherRecord_DoesNotApply() =>
        Assert.Equal(Verdict.NotApplicable, MakeSafe.Complete.VerdictOf(EnergyDuty.ClearOfOtherRecords));

    [Theory]
    [InlineData("08:30 machine_started tech-05")]
    [InlineData("08:30 test_energised tech-05")]
    [InlineData("08:10 test_energised tech-05\n08:25 test_ended tech-05")]
    [InlineData("09:30 test_ended tech-05")]
    [InlineData("08:30 energised_task_performed tech-05")]
    [InlineData("08:30 stored_energy_rechecked tech-05 source=hydraulic pressure=140_bar")]
    [InlineData("08:18 isolation_verified tech-05 source=hydraulic pressure=140_bar")]
    [InlineData("08:30 isolator_operated tech-05 source=engine_start position=on")]
    [InlineData("08:30 source_added tech-05 source=groomer_motor")]
    [InlineData("08:30 handed_back tech-05")]
    [InlineData("08:30 lock_removed tech-05 source=engine_start lock=L-11")]
    [InlineData("08:30 lock_removed tech-01 source=engine_start lock=L-11")]
    [InlineData("09:45 lock_removed tech-05 source=engine_start lock=L-11")]
    public void Judge_GivenEnergyOrALockOverTheseHands_IsNotMetAndNamesTheOther(string entries)
    {
        var outcome = Beside(entries);

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.StartsWith("Record J-2 shows ", outcome.Statement, StringComparison.Ordinal);
        Assert.NotEmpty(outcome.Evidence);
    }

    [Theory]
    [InlineData("08:00 machine_started tech-05\n08:02 machine_shut_down tech-05")]
    [InlineData("08:00 machine_started tech-05")]
    [InlineData("09:40 machine_started tech-05\n09:41 machine_shut_down tech-05")]
    [InlineData("09:43 machine_started tech-05")]
    [InlineData("08:30 source_added tech-05 source=engine_start")]
    [InlineData("08:30 isolator_operated tech-05 source=engine_start position=off")]
    [InlineData("08:30 machine_shut_down tech-05")]
    [InlineData("08:10 energised_task_performed tech-05")]
    [InlineData("08:30 stored_energy_rechecked tech-05 source=hydraulic pressure=4_bar")]
    [InlineData("09:39 stored_energy_rechecked tech-05 source=hydraulic pressure=140_bar")]
    [InlineData("08:10 stored_energy_rechecked tech-05 source=hydraulic pressure=140_bar")]
    [InlineData(
        "08:18 stored_energy_rechecked tech-05 source=hydraulic pressure=140_bar\n08:19 stored_energy_released tech-05 source=hydraulic"
    )]
    [InlineData("09:45 lock_removed tech-01 source=engine_start lock=L-11")]
    [InlineData(
        "09:42 absence_confirmed tech-05 others=tech-01\n09:43 contact_attempted tech-05 others=tech-01\n09:45 lock_removed tech-05 source=engine_start lock=L-11 exception=P-90"
    )]
    public void Judge_OutsideTheHandsOnWork_IsMet(string entries) =>
        Assert.Equal(Verdict.Met, Beside(entries).Verdict);

    [Fact]
    public void Judge_StartedInTheMinuteInWhichHandsWentIn_IsNotProven() =>
        Assert.Equal(Verdict.Unproven, Beside("08:20 machine_started tech-05").Verdict);

    [Theory]
    [InlineData("09:55 work_started tech-05\n10:30 work_stopped tech-05", true, Verdict.NotMet)]
    [InlineData("09:45 work_started tech-05\n09:50 work_stopped tech-05", true, Verdict.Met)]
    [InlineData("08:30 work_started tech-05", false, Verdict.NotMet)]
    [InlineData("08:30 work_started tech-05", true, Verdict.Met)]
    public void Judge_OtherHandsInWhenThisRecordStarts_IsNotMet(
        string entries,
        bool isSignedOff,
        Verdict expected
    )
    {
        var outcome = Beside(entries, isSignedOff ? "2026-04-13T09:51:00+01:00" : null);

        Assert.Equal(expected, outcome.Verdict);
        Assert.Equal(
            expected == Verdict.NotMet,
            outcome.Statement.Contains("record J-2 shows tech-05 with hands in M-1", StringComparison.Ordinal)
        );
    }

    [Theory]
    [InlineData("08:30 units_lowered tech-05", Verdict.Unproven)]
    [InlineData("08:10 units_lowered tech-05", Verdict.Met)]
    [InlineData("09:40 units_lowered tech-05", Verdict.Met)]
    [InlineData("07:50 work_started tech-05\n08:30 work_stopped tech-05", Verdict.Unproven)]
    public void Judge_UnitsLoweredOverHandsOfAnotherRecord_IsNotProven(string entries, Verdict expected) =>
        Assert.Equal(expected, Beside(entries).Verdict);

    [Fact]
    public void Judge_HandsOfAnOpenRecordDaysAgo_AreOut() =>
        Assert.Equal(Verdict.Met, Beside("08:30-2 work_started tech-05", null).Verdict);

    [Fact]
    public void Judge_OfAnotherMachine_DoesNotApply() =>
        Assert.Equal(Verdict.NotApplicable, Beside("08:30 machine_started tech-05", machine: "M-2").Verdict);

    /// <summary>Of a unit off the machine whose record shows nothing of one, hands are in no machine.</summary>
    [Theory]
    [InlineData("09:45 work_started tech-05\n10:30 work_stopped tech-05", Verdict.Met)]
    [InlineData(
        "09:45 work_started tech-05\n10:00 machine_shut_down tech-05\n10:30 work_stopped tech-05",
        Verdict.NotMet
    )]
    public void Judge_StartedWithTheOtherAtTheBench_IsClear(string entries, Verdict expected) =>
        Assert.Equal(expected, Beside(entries, other: one => one with { Place = WorkPlace.OnBench }).Verdict);

    /// <summary>A lock that another record hung, cut off here by the exception, asks for all of it.</summary>
    [Theory]
    [InlineData("", Verdict.NotMet)]
    [InlineData("07:02 absence_confirmed tech-01 others=tech-05\n", Verdict.NotMet)]
    [InlineData(
        "07:02 absence_confirmed tech-01 others=tech-05\n07:03 contact_attempted tech-01 others=tech-05\n",
        Verdict.Unproven
    )]
    public void DeviceOffByOwner_HungInAnotherRecord_AsksForTheWholeException(string before, Verdict expected)
    {
        var job = MakeSafe.Complete.With(
            before
                + "07:05 lock_removed tech-01 source=engine_start lock=L-51 exception=P-90\n"
                + MakeSafe.Seat
                + MakeSafe.Isolation
                + MakeSafe.Work
                + MakeSafe.After
        );

        var outcome = Beside(
            "06:50 lock_applied tech-05 source=engine_start lock=L-51",
            own: job,
            duty: EnergyDuty.DeviceOffByOwner
        );

        Assert.Equal(expected, outcome.Verdict);
        Assert.Contains("lock L-51 put on by tech-05", outcome.Statement, StringComparison.Ordinal);
    }

    /// <summary>The lock of an outside employer is left alone, whichever record it was hung in.</summary>
    [Theory]
    [InlineData(Employer.Outside, Verdict.NotMet)]
    [InlineData(Employer.Site, Verdict.NotApplicable)]
    public void OutsideDeviceLeftAlone_HungInAnotherRecord_IsToldWhereItIsCut(
        Employer employer,
        Verdict expected
    ) =>
        Assert.Equal(
            expected,
            Beside(
                "06:50 lock_applied tech-05 source=engine_start lock=L-51",
                own: MakeSafe.Complete.With(
                    "07:05 lock_removed tech-01 source=engine_start lock=L-51 exception=P-90\n"
                        + MakeSafe.Seat
                        + MakeSafe.Isolation
                        + MakeSafe.Work
                        + MakeSafe.After
                ) with
                {
                    Register =
                    [
                        new(new("tech-01"), true, null, null),
                        new(new("tech-05"), true, null, null) { Employer = employer },
                    ],
                },
                duty: EnergyDuty.OutsideDeviceLeftAlone
            ).Verdict
        );

    /// <summary>A task entered just after a run may tell of that run, and be no other.</summary>
    [Theory]
    [InlineData("08:00", "08:19", Verdict.Unproven)]
    [InlineData("08:19", "08:19", Verdict.Unproven)]
    [InlineData("08:00", "08:05", Verdict.NotMet)]
    public void Judge_TaskEnteredAfterARun_IsUnprovenWhereItMayTellOfIt(
        string started,
        string ended,
        Verdict expected
    )
    {
        var start = started == ended ? string.Empty : $"{started} test_energised tech-05\n";

        var outcome = Beside($"{start}{ended} test_ended tech-05\n08:21 energised_task_performed tech-05");

        Assert.Equal(expected, outcome.Verdict);
        Assert.Equal(
            expected == Verdict.Unproven,
            outcome.Statement.EndsWith(
                "; it may tell of the run that ended at 08:19 by tech-05.",
                StringComparison.Ordinal
            )
        );
    }

    /// <summary>What the bench log of the other tells of a reel that its timeline shows running is told once, by the run.</summary>
    [Fact]
    public void Judge_LappedInARunOfTheOther_IsToldOnce()
    {
        var time = RecordedTime.Parse("2026-04-13T08:40:00+01:00").OrThrow();

        var outcome = Beside(
            "08:30 test_energised tech-05\n08:50 test_ended tech-05",
            other: one => one with { Bench = [new(new("U-1"), BenchAct.ReelLapped, time, new("tech-05"))] }
        );

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Empty(outcome.Notices);
    }

    /// <summary>A reel wedged, a unit propped up, guards refitted: hands at the unit, while the other runs the machine.</summary>
    [Theory]
    [InlineData(
        "08:10 reel_wedged op-01",
        "08:08 test_energised tech-05\n08:15 test_ended tech-05",
        Verdict.NotMet
    )]
    [InlineData(
        "08:10 unit_supported op-01",
        "08:08 test_energised tech-05\n08:15 test_ended tech-05",
        Verdict.NotMet
    )]
    [InlineData(
        "08:10 guards_refitted op-01",
        "08:08 machine_started tech-05\n08:15 machine_shut_down tech-05",
        Verdict.NotMet
    )]
    [InlineData("08:10 reel_wedged op-01", "08:10 machine_started tech-05", Verdict.Unproven)]
    [InlineData("08:10 reel_wedged op-01", "08:10 energised_task_performed tech-05", Verdict.Unproven)]
    [InlineData("08:10 reel_wedged op-01", "08:10 units_lowered tech-05", Verdict.Met)]
    [InlineData(
        "08:07 reel_wedged op-01",
        "08:08 test_energised tech-05\n08:15 test_ended tech-05",
        Verdict.Met
    )]
    [InlineData(
        "08:15 reel_wedged op-01",
        "08:08 test_energised tech-05\n08:15 test_ended tech-05",
        Verdict.Met
    )]
    [InlineData(
        "08:10 seen_at_rest op-01",
        "08:08 test_energised tech-05\n08:15 test_ended tech-05",
        Verdict.Met
    )]
    public void Judge_StepByHandWhileTheOtherRunsTheMachine_CountsAsHands(
        string step,
        string run,
        Verdict expected
    )
    {
        var outcome = Beside(run, own: Own(step));

        Assert.Equal(expected, outcome.Verdict);
        Assert.Equal(
            expected != Verdict.Met,
            outcome.Statement.Contains(
                $", and this record shows op-01 with hands in at {step[..5]}, ",
                StringComparison.Ordinal
            )
        );
    }

    [Theory]
    [InlineData("07:55 reel_wedged op-09", Verdict.NotMet)]
    [InlineData("07:50 reel_wedged op-09", Verdict.Unproven)]
    [InlineData("07:58 reel_wedged op-09", Verdict.Met)]
    [InlineData(
        "07:54 test_energised tech-05\n07:55 reel_wedged op-09\n07:56 test_ended tech-05",
        Verdict.Met
    )]
    public void Judge_StepByHandOfTheOtherWhileThisOneRunsTheMachine_CountsAsHands(
        string entries,
        Verdict expected
    )
    {
        var outcome = Beside(
            entries,
            own: Own("07:50 machine_started tech-01\n07:58 machine_shut_down tech-01")
        );

        Assert.Equal(expected, outcome.Verdict);
        Assert.Equal(
            expected == Verdict.NotMet,
            outcome.Statement
                == "The record shows the machine started at 07:50 by tech-01, and record J-2 shows op-09 with hands in M-1 at 07:55, the reel wedged."
        );
    }

    /// <summary>Started before hands went in or guards went back, and no end shown: unproven, unless something shows that it stood by then.</summary>
    [Theory]
    [InlineData("08:18 machine_started tech-05", Verdict.Unproven)]
    [InlineData("08:18 test_energised tech-05", Verdict.Unproven)]
    [InlineData("09:40 machine_started tech-05", Verdict.Unproven)]
    [InlineData("08:18 machine_started tech-05\n08:19 machine_shut_down tech-05", Verdict.Met)]
    [InlineData("08:18 machine_started tech-05\n08:19 isolation_verified tech-05 source=all", Verdict.Met)]
    [InlineData("08:16 machine_started tech-05", Verdict.Met)]
    [InlineData("08:18 isolator_operated tech-05 source=engine_start position=on", Verdict.Met)]
    public void Judge_StartedByTheOtherBeforeHandsWentInAndNoEndShown_IsNotProven(
        string entries,
        Verdict expected
    )
    {
        var outcome = Beside(entries);

        Assert.Equal(expected, outcome.Verdict);
        Assert.Equal(
            expected == Verdict.Unproven,
            outcome.Statement.EndsWith(
                "; neither shows when the machine was stopped.",
                StringComparison.Ordinal
            )
        );
    }

    private static SafetyCase Own(string more) =>
        MakeSafe.Complete.With(
            MakeSafe.Seat + MakeSafe.Isolation + MakeSafe.Work + MakeSafe.After + "\n" + more
        );

    /// <summary>Hands, and a reel lapped, that only the bench log of the other tells.</summary>
    [Theory]
    [InlineData("10:00", false, Verdict.NotMet)]
    [InlineData("08:30", true, Verdict.NotMet)]
    [InlineData("08:10", true, Verdict.Met)]
    public void Judge_ToldByTheBenchLogOfTheOther_Counts(string at, bool isLapping, Verdict expected)
    {
        var time = RecordedTime.Parse($"2026-04-13T{at}:00+01:00").OrThrow();
        var act = isLapping ? BenchAct.ReelLapped : BenchAct.ContactFelt;

        var outcome = Beside(
            "07:00 parking_brake_set tech-05",
            own: MakeSafe.Complete.With(
                MakeSafe.Seat
                    + MakeSafe.Isolation
                    + MakeSafe.Work
                    + MakeSafe.After
                    + "\n10:20 machine_shut_down tech-01"
            ),
            other: one => one with { Bench = [new(new("U-1"), act, time, new("tech-05"))] }
        );

        Assert.Equal(expected, outcome.Verdict);
    }

    /// <summary>A time is told with the offset it was entered with where the two records have different ones.</summary>
    [Fact]
    public void Judge_OtherEnteredInAnotherOffset_TellsBothOffsets() =>
        Assert.Equal(
            "Record J-2 shows the machine started at 07:30Z by tech-05, and this record shows tech-01 with hands in from 08:20+01:00 to 09:40+01:00.",
            Beside("2026-04-13T07:30:00Z machine_started tech-05").Statement
        );

    private static CheckOutcome Beside(
        string entries,
        string? signedOff = "2026-04-13T18:00:00+01:00",
        string machine = "M-1",
        Func<OtherRecord, OtherRecord>? other = null,
        SafetyCase? own = null,
        EnergyDuty duty = EnergyDuty.ClearOfOtherRecords
    )
    {
        var timeline = new SafetyCase()
            .With(entries.Replace("08:30-2", "2026-04-11T08:30:00+01:00", StringComparison.Ordinal))
            .Entries;
        return (
            (own ?? MakeSafe.Complete) with
            {
                Procedure = SafetyCase.RideOn with
                {
                    Sources =
                    [
                        .. SafetyCase.RideOn.Sources.Select(source =>
                            source.Id == new Id<EnergySource>("hydraulic")
                                ? source with
                                {
                                    RecheckLimit = Pressure.Parse("5 bar").OrThrow(),
                                }
                                : source
                        ),
                    ],
                },
                Registered = context =>
                    context with
                    {
                        OtherRecords =
                        [
                            (other ?? (one => one))(
                                new(
                                    new("J-2"),
                                    new(machine),
                                    signedOff is null
                                        ? null
                                        : new(new("tech-05"), RecordedTime.Parse(signedOff).OrThrow()),
                                    timeline
                                )
                            ),
                        ],
                    },
            }
        ).Duty(duty);
    }
}
