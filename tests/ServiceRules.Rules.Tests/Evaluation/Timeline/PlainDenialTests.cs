using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Tests.Evaluation.Timeline;

/// <summary>Plain words that a step is not done, each with an honest twin.</summary>
public sealed class PlainDenialTests
{
    [Theory]
    [InlineData(TimelineEventKind.IsolationVerified, "looked at the isolator")]
    [InlineData(TimelineEventKind.IsolationVerified, "as before, same as this morning")]
    [InlineData(TimelineEventKind.SeenAtRest, "reel slowing down, nearly stopped")]
    [InlineData(TimelineEventKind.SeenAtRest, "coasting")]
    [InlineData(TimelineEventKind.StoredEnergyReleased, "units held up by the lift cylinders")]
    [InlineData(TimelineEventKind.LockApplied, "hung open, key left in it")]
    [InlineData(TimelineEventKind.LockApplied, "key still in the padlock")]
    [InlineData(TimelineEventKind.LockApplied, "spare key with op-03")]
    [InlineData(TimelineEventKind.MachineShutDown, "engine still idling")]
    [InlineData(TimelineEventKind.MachineShutDown, "left ticking over")]
    [InlineData(TimelineEventKind.GuardsRefitted, "shield held on with tape until bolts come")]
    [InlineData(TimelineEventKind.GuardsRefitted, "tied back with a rope")]
    [InlineData(TimelineEventKind.CutOutsProved, "reels keep turning when the driver gets up")]
    public void By_PlainWordsThatItIsNotDone_Denies(TimelineEventKind kind, string words)
    {
        Assert.True(SaidOtherwise.By(Entry(kind) with { Method = words }));
        Assert.True(SaidOtherwise.By(Entry(kind) with { Reason = words }));
    }

    [Theory]
    [InlineData(TimelineEventKind.IsolationVerified, "looked at the isolator, then tried the start")]
    [InlineData(TimelineEventKind.IsolationVerified, "looked at the gauge, 0 bar")]
    [InlineData(TimelineEventKind.IsolationVerified, "start attempt, same as before; nothing moves")]
    [InlineData(TimelineEventKind.IsolationVerified, "as always")]
    [InlineData(TimelineEventKind.SeenAtRest, "waited until it had finished coasting")]
    [InlineData(TimelineEventKind.SeenAtRest, "reels stopped, nothing slowing down any more")]
    [InlineData(TimelineEventKind.SeenAtRest, "took nearly a minute")]
    [InlineData(
        TimelineEventKind.StoredEnergyReleased,
        "units down on the floor, not held by the lift cylinders"
    )]
    [InlineData(TimelineEventKind.StoredEnergyReleased, "lift cylinders bled, units on stands")]
    [InlineData(TimelineEventKind.LockApplied, "hung closed, no key left in it")]
    [InlineData(TimelineEventKind.LockApplied, "spare key in the safe")]
    [InlineData(TimelineEventKind.LockApplied, "spare key with the lead, in the safe")]
    [InlineData(TimelineEventKind.LockApplied, "key in my pocket")]
    [InlineData(TimelineEventKind.MachineShutDown, "engine not idling any more")]
    [InlineData(TimelineEventKind.MachineShutDown, "left idling two minutes, then off")]
    [InlineData(TimelineEventKind.DriveDisengaged, "engine still idling")]
    [InlineData(TimelineEventKind.GuardsRefitted, "bolted on again, the tape taken off")]
    [InlineData(TimelineEventKind.GuardsRefitted, "held on with four bolts")]
    [InlineData(TimelineEventKind.CutOutsProved, "reels stop when the driver gets up")]
    [InlineData(
        TimelineEventKind.CutOutsProved,
        "reels keep turning with the driver on the seat, stop when he gets up"
    )]
    public void By_TheHonestTwin_DeniesNothing(TimelineEventKind kind, string words)
    {
        Assert.False(SaidOtherwise.By(Entry(kind) with { Method = words }));
        Assert.False(SaidOtherwise.By(Entry(kind) with { Reason = words }));
    }

    private static TimelineEvent Entry(TimelineEventKind kind) =>
        TimelineLine.Read($"08:00 {kind} tech-01", new(2026, 4, 13));
}
