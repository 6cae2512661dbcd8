using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

/// <summary>A source of energy that comes in the middle of the job.</summary>
public sealed class SourceAddedDutyTests
{
    [Theory]
    [InlineData("08:30 source_added tech-01 source=groomer\n", Verdict.NotMet)]
    [InlineData("08:10 source_added tech-01 source=hydraulic\n", Verdict.Met)]
    [InlineData("08:18 source_added tech-01 source=hydraulic\n", Verdict.NotMet)]
    [InlineData("08:05 source_added tech-01 source=groomer\n", Verdict.NotMet)]
    [InlineData("09:45 source_added tech-01 source=groomer\n", Verdict.Met)]
    [InlineData("", Verdict.NotApplicable)]
    public void SourceAdded_WithHandsInOrNotMadeSafeSince_IsNotMet(string added, Verdict expected) =>
        Assert.Equal(
            expected,
            new SafetyCase()
                .With(MakeSafe.Isolation + MakeSafe.Work + added)
                .VerdictOf(EnergyDuty.SourceAddedControlled)
        );

    /// <summary>What nobody has done to it yet is listed by the duties of those steps.</summary>
    [Theory]
    [InlineData("", "all of that for groomer after 08:18, when it was added")]
    [InlineData(
        "08:10 isolator_operated tech-01 source=groomer\n",
        "since groomer was added at 08:18: the isolator turned off; a lock or tag put on the isolator; the isolation verified"
    )]
    public void SourceAdded_BeforeHandsGoIn_SaysOnlyWhatTheStepsDoNot(string before, string stillToDo)
    {
        var job = new SafetyCase() with
        {
            IsSignedOff = false,
            Procedure = SafetyCase.RideOn with
            {
                Sources =
                [
                    .. SafetyCase.RideOn.Sources,
                    SafetyCase.Source("groomer", "groomer", isolator: "plug", lockable: true),
                ],
            },
        };

        Assert.Equal<IEnumerable<string>>(
            [stillToDo],
            job.With(MakeSafe.Isolation + before + "08:18 source_added tech-01 source=groomer")
                .Duty(EnergyDuty.SourceAddedControlled)
                .StillToDo
        );
    }

    [Fact]
    public void Protection_SourceAddedWhileAtWork_NoLongerProtects() =>
        Assert.Equal(
            Verdict.NotMet,
            MakeSafe
                .Complete.With(
                    MakeSafe.Seat
                        + MakeSafe.Isolation
                        + MakeSafe.Work
                        + "08:30 source_added tech-01 source=groomer\n"
                        + MakeSafe.After
                )
                .Judge(new Check.Protection())
                .Verdict
        );
}
