using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation;
using ServiceRules.Rules.Model;
using ServiceRules.Rules.Tests.Evaluation.Timeline;

namespace ServiceRules.Rules.Tests.Evaluation.Duties;

public sealed class StepsBeforeHandsTests
{
    [Theory]
    [InlineData(EnergyDuty.EnergyReviewed, "the energy sources and controls gone through")]
    [InlineData(
        EnergyDuty.SourcesIsolated,
        "the isolator turned off for engine start and hydraulic pressure"
    )]
    [InlineData(
        EnergyDuty.OwnDeviceThroughWork,
        "an own lock or control of tech-01 on engine start and hydraulic pressure"
    )]
    public void StillToDo_OfAnOutcomeOnAJobThatGoesOn_IsTheStepAlone(EnergyDuty of, string step) =>
        Assert.Equal(step, Assert.Single((new SafetyCase() with { IsSignedOff = false }).Duty(of).StillToDo));

    [Fact]
    public void StillToDo_OfAJobThatIsOver_IsNothing() =>
        Assert.Empty(new SafetyCase().Duty(EnergyDuty.EnergyReviewed).StillToDo);

    [Fact]
    public void Of_StepsOfMakingSafe_StandInTheOrderInWhichTheyAreDone()
    {
        Check[] steps =
        [
            new Check.EnergyControl(EnergyDuty.AffectedTold),
            new Check.EnergyControl(EnergyDuty.EnergyReviewed),
            FoundationChecks.Before(TimelineEventKind.DriveDisengaged),
            new Check.EnergyControl(EnergyDuty.OrderlyShutdown),
            FoundationChecks.Before(TimelineEventKind.KeyRemoved),
            new Check.EnergyControl(EnergyDuty.SourcesIsolated),
            new Check.EnergyControl(EnergyDuty.DeviceOnEachIsolator),
            new Check.EnergyControl(EnergyDuty.StoredEnergyReleased),
            new Check.EnergyControl(EnergyDuty.IsolationVerified),
            FoundationChecks.Before(TimelineEventKind.GlovesWorn),
            new Check.Protection(),
        ];

        Assert.Equal(steps, steps.OrderBy(step => StepsBeforeHands.Of(step)!.Value));
        Assert.Null(StepsBeforeHands.Of(new Check.EnergyControl(EnergyDuty.AreaInspected)));
    }
}
