using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

/// <summary>Pressure that can come back, to be checked every thirty minutes.</summary>
public sealed class BuildUpDutyTests
{
    private static readonly SafetyCase Pressure = new()
    {
        Procedure = SafetyCase.RideOn with
        {
            Sources =
            [
                SafetyCase.Source("hydraulic", "hydraulic pressure", "valve", true, true, recheck: 30),
            ],
        },
    };

    [Theory]
    [InlineData("08:00 work_started tech-01\n11:00 work_stopped tech-01", "no check")]
    [InlineData("08:00 work_started tech-01\n08:10 work_stopped tech-01", "no check")]
    [InlineData(
        "08:00 work_started tech-01\n11:00 work_stopped tech-01\n11:05 stored_energy_rechecked tech-01 source=hydraulic",
        "no check"
    )]
    [InlineData(
        "08:00 work_started tech-01\n10:40 stored_energy_rechecked tech-01 source=hydraulic\n11:00 work_stopped tech-01",
        "more than 30 minutes after 08:00, with hands in"
    )]
    public void Judge_NoCheckSinceTheStartOfWork_IsNotMet(string timeline, string told)
    {
        var outcome = Pressure.With(timeline).Duty(EnergyDuty.BuildUpRechecked);

        Assert.Equal(Verdict.NotMet, outcome.Verdict);
        Assert.Contains(told, outcome.Statement, StringComparison.Ordinal);
        Assert.Contains("/timeline/0", outcome.Evidence);
    }

    [Fact]
    public void Judge_FirstCheckInTimeAfterTheStartOfWork_IsMet()
    {
        var outcome = Pressure
            .With(
                """
                08:00 work_started tech-01
                08:25 isolation_verified tech-01 source=all
                08:50 work_stopped tech-01
                """
            )
            .Duty(EnergyDuty.BuildUpRechecked);

        Assert.Equal(Verdict.Met, outcome.Verdict);
    }

    [Fact]
    public void Judge_WorkWithoutEndAndACheckLongAgo_IsUnprovenFromTheStartOfWork()
    {
        var outcome = (
            Pressure.With(
                """
                08:00 work_started tech-01
                08:25 isolation_verified tech-01 source=all
                10:00 handed_back tech-01
                """
            ) with
            {
                IsSignedOff = false,
            }
        ).Duty(EnergyDuty.BuildUpRechecked);

        Assert.Equal((Verdict.Unproven, FindingReason.InProgress), (outcome.Verdict, outcome.Reason));
    }
}
