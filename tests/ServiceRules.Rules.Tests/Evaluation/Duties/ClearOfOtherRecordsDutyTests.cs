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
    [InlineData("09:40 machine_started tech-05")]
    [InlineData("08:30 source_added tech-05 source=engine_start")]
    [InlineData("08:30 isolator_operated tech-05 source=engine_start position=off")]
    [InlineData("08:30 machine_shut_down tech-05")]
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

    [Fact]
    public void Judge_HandsOfAnOpenRecordDaysAgo_AreOut() =>
        Assert.Equal(Verdict.Met, Beside("08:30-2 work_started tech-05", null).Verdict);

    [Fact]
    public void Judge_OfAnotherMachine_DoesNotApply() =>
        Assert.Equal(Verdict.NotApplicable, Beside("08:30 machine_started tech-05", machine: "M-2").Verdict);

    private static CheckOutcome Beside(
        string entries,
        string? signedOff = "2026-04-13T18:00:00+01:00",
        string machine = "M-1"
    )
    {
        var timeline = new SafetyCase()
            .With(entries.Replace("08:30-2", "2026-04-11T08:30:00+01:00", StringComparison.Ordinal))
            .Entries;
        return (
            MakeSafe.Complete with
            {
                Registered = context =>
                    context with
                    {
                        OtherRecords =
                        [
                            new(
                                new("J-2"),
                                new(machine),
                                signedOff is null
                                    ? null
                                    : new(new("tech-05"), RecordedTime.Parse(signedOff).OrThrow()),
                                timeline
                            ),
                        ],
                    },
            }
        ).Duty(EnergyDuty.ClearOfOtherRecords);
    }
}
