using ServiceRules.Domain.Records;
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
    [InlineData("handover_briefed tech-02", true, true)]
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
            .Frame();
        var rule = SafetyCase.AnyRule with { Check = new Check.EnergyControl(EnergyDuty.WorkByAuthorised) };
        var pack = new RulePack
        {
            Id = new("p"),
            Version = "1",
            Title = "p",
            Layer = PackLayer.Base,
            Rules = [rule],
        };

        var next = StillOut
            .Of(job with { Book = new([pack], []) })
            .Single(one => one.Person == new Domain.Id<Participant>("tech-02"));

        Assert.Equal(
            !isBriefed,
            next.Lacks.Any(lack => lack.EndsWith("between tech-02 and tech-01", StringComparison.Ordinal))
        );
    }
}
