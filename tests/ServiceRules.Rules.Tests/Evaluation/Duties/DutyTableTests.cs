using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

public sealed class DutyTableTests
{
    public static TheoryData<EnergyDuty> Duties => [.. Enum.GetValues<EnergyDuty>()];

    [Theory]
    [MemberData(nameof(Duties))]
    public void Of_EveryDuty_HasAnEntryAndIsJudged(EnergyDuty duty)
    {
        Assert.NotEmpty(DutyTable.Of(duty).Verdicts);
        Assert.NotEmpty(new SafetyCase().Duty(duty).Statement);
    }

    [Theory]
    [MemberData(nameof(Duties))]
    public void Of_EveryDuty_ThatEndangersHandsIsNotDueOnlyAfterThem(EnergyDuty duty)
    {
        var entry = DutyTable.Of(duty);

        Assert.False(entry.IsDueAfterHands && entry.Step is not null);
        Assert.True(!entry.IsDueAfterHands || entry.Danger is HandsDanger.None or HandsDanger.DeviceTakenOff);
    }

    [Theory]
    [MemberData(nameof(Duties))]
    public void Of_EveryDuty_DoesOnlyWhatIsDoneInTheSameStep(EnergyDuty duty)
    {
        var entry = DutyTable.Of(duty);

        Assert.All(entry.Does, done => Assert.Equal(entry.Step, DutyTable.Of(done).Step));
        Assert.DoesNotContain(duty, entry.Does);
    }

    [Fact]
    public void Of_WhatIsForAPerson_IsNeitherKeptNorBroken() =>
        Assert.Equal(Verdict.Unproven, Assert.Single(DutyTable.Of(EnergyDuty.CoverageDecided).Verdicts));
}
