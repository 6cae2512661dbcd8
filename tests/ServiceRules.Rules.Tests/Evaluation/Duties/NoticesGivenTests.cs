using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

/// <summary>A notice counts for those whom it names: of several affected people each must have been told.</summary>
public sealed class NoticesGivenTests
{
    private static readonly SafetyCase Two = new SafetyCase() with
    {
        People =
        [
            new(new("tech-01"), JobRole.Performs),
            new(new("op-01"), JobRole.Affected),
            new(new("op-02"), JobRole.Affected),
        ],
    };

    [Theory]
    [InlineData(" others=op-01", "", Verdict.NotMet)]
    [InlineData(" others=op-01,op-02", "", Verdict.Met)]
    [InlineData("", "", Verdict.Met)]
    [InlineData(" others=op-01", " others=op-02", Verdict.Met)]
    [InlineData(" others=op-03", " others=op-02", Verdict.NotMet)]
    public void Judge_NoticesBefore_MustNameEverybodyAffected(string one, string other, Verdict expected) =>
        Assert.Equal(
            expected,
            Judge(EnergyDuty.AffectedTold, "affected_notified_before", one, other).Verdict
        );

    [Theory]
    [InlineData(" others=op-01", "", Verdict.NotMet)]
    [InlineData(" others=op-01", " others=op-02", Verdict.Met)]
    public void Judge_NoticesAfter_MustNameEverybodyAffected(string one, string other, Verdict expected)
    {
        Assert.Equal(expected, Judge(EnergyDuty.AffectedToldAfter, "removal_notified", one, other).Verdict);
        Assert.Equal(expected, Judge(EnergyDuty.ToldBeforeStart, "removal_notified", one, other).Verdict);
    }

    [Fact]
    public void Judge_OneLeftOut_IsNamed() =>
        Assert.Contains(
            "op-02 it does not show told before",
            Judge(EnergyDuty.AffectedTold, "affected_notified_before", " others=op-01", "").Statement,
            StringComparison.Ordinal
        );

    [Theory]
    [InlineData("10:00 work_stopped tech-01\n", Verdict.Met)]
    [InlineData("", Verdict.Unproven)]
    public void Judge_ToldAfterWorkWithoutEnd_IsUnproven(string end, Verdict expected)
    {
        var plug = Two with
        {
            Procedure = SafetyCase.RideOn with
            {
                Sources = [SafetyCase.Source("mains_cord", "mains cord", "plug")],
            },
        };
        Assert.Equal(
            expected,
            plug.With(
                    "09:00 plug_removed tech-01 source=mains_cord\n09:01 plug_control_confirmed tech-01 source=mains_cord\n09:05 work_started tech-01\n"
                        + end
                        + "10:05 removal_notified lead-01 others=op-01,op-02"
                )
                .VerdictOf(EnergyDuty.AffectedToldAfter)
        );
    }

    private static Rules.Evaluation.CheckOutcome Judge(EnergyDuty of, string kind, string one, string other)
    {
        var isBefore = of == EnergyDuty.AffectedTold;
        var notice = isBefore ? "08:00" : "09:50";
        var second =
            other.Length == 0 ? string.Empty : $"{(isBefore ? "08:00" : "09:51")} {kind} lead-01{other}\n";
        return Two.With(
                (isBefore ? $"{notice} {kind} lead-01{one}\n{second}" : string.Empty)
                    + MakeSafe.Isolation
                    + MakeSafe.Work
                    + """
                    09:47 lock_removed tech-01 source=engine_start lock=L-11
                    09:48 lock_removed tech-01 source=hydraulic lock=L-12

                    """
                    + (isBefore ? string.Empty : $"{notice} {kind} lead-01{one}\n{second}")
                    + "09:53 machine_started tech-01"
            )
            .Duty(of);
    }
}
