using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

/// <summary>What those who are to take over lack; tech-01 has stopped and the job is open.</summary>
public sealed class StillOutTests
{
    /// <summary>Told as the duty of handovers will judge it once they have begun.</summary>
    [Theory]
    [InlineData("handover_briefed tech-01", false, true)]
    [InlineData("handover_briefed tech-01", true, false)]
    [InlineData("handover_briefed tech-02", true, false)]
    [InlineData("handover_briefed tech-02 others=tech-01", false, false)]
    [InlineData("handover_briefed tech-01 others=tech-02", true, true)]
    [InlineData("handover_briefed tech-01 others=tech-03", true, false)]
    public void Of_Briefed_CountsForWhomItIs(string entry, bool areSeveral, bool isBriefed)
    {
        var job = (
            MakeSafe.Complete with
            {
                IsSignedOff = false,
                People =
                [
                    SafetyCase.Person("tech-01"),
                    SafetyCase.Person("tech-02"),
                    .. areSeveral ? new[] { SafetyCase.Person("tech-03") } : [],
                ],
            }
        )
            .With(MakeSafe.Seat + MakeSafe.Isolation + MakeSafe.Work + "09:45 " + entry)
            .OpenJob();

        var next = StillOut.Of(job).Single(one => one.Person == new Domain.Id<Participant>("tech-02"));

        Assert.Equal(
            !isBriefed,
            next.Lacks.Any(lack => lack.EndsWith("between tech-02 and tech-01", StringComparison.Ordinal))
        );
    }

    /// <summary>A run in between is no handover, told the same as by the duty of handovers.</summary>
    [Theory]
    [InlineData("", true)]
    [InlineData("09:50 test_energised tech-01\n09:58 test_ended tech-01\n", false)]
    [InlineData("09:50 machine_started tech-01\n09:58 machine_shut_down tech-01\n", false)]
    public void Of_TheMachineRanInBetween_AsksNoBriefing(string ran, bool isAsked)
    {
        var job = MakeSafe.Complete with
        {
            People = [SafetyCase.Person("tech-01"), SafetyCase.Person("tech-02")],
        };
        var soFar = MakeSafe.Seat + MakeSafe.Isolation + MakeSafe.Work + ran;

        var next = StillOut
            .Of((job with { IsSignedOff = false }).With(soFar).OpenJob())
            .Single(one => one.Person == new Domain.Id<Participant>("tech-02"));
        var taken = job.With(soFar + "10:20 work_started tech-02\n10:40 work_stopped tech-02\n")
            .Duty(EnergyDuty.HandoverContinuous);

        Assert.Equal(isAsked, next.Lacks.Any(lack => lack.Contains("briefed", StringComparison.Ordinal)));
        Assert.Equal(isAsked, taken.Verdict == Verdict.NotMet);
    }
}
