using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Model;

namespace ServiceRules.Engine.Judging;

/// <summary>What a kind of check looks at, as far as consequences depend on it.</summary>
internal static class CheckReach
{
    /// <summary>
    /// Quantities whose state as left the check judges, the one that its remedy would adjust first. A presence as
    /// found, the order of work and everything on the timeline stay true whatever is turned later.
    /// </summary>
    public static ImmutableArray<MeasuredQuantity> JudgedAsLeft(Check check) =>
        check switch
        {
            Check.LimitOnQuantity limit => [limit.Quantity],
            Check.ProceduralLimit limit => [limit.Quantity],
            Check.Contact contact => [contact.Quantity],
            Check.Spread spread => [spread.Quantity],
            Check.Parallelism parallelism => [parallelism.Quantity],
            Check.ReelForm => [MeasuredQuantity.ReelDiameter],
            Check.Twist => [MeasuredQuantity.FrontRollerOnPlate, MeasuredQuantity.RearRollerOnPlate],
            Check.Relation relation => [relation.Quantity, relation.Other],
            Check.SoundCondition condition => [condition.Quantity],
            Check.Freshness freshness => [freshness.Quantity],
            _ => [],
        };

    /// <summary>Whether the check guards work that, on an open job, is about to happen or is happening.</summary>
    public static bool HandsGoInNext(Check check) =>
        check switch
        {
            Check.RequiredEvent { When: RequiredWhen.BeforeWork }
            or Check.OrderOfEvents
            or Check.Protection => true,
            Check.EnergyControl duty => !IsAfterHands(duty.Of),
            // Somebody is about to rely on a lock that may hang on another machine.
            Check.Credibility { Of: CredibilityOf.LockInTwoPlaces } => true,
            _ => false,
        };

    // What is due when hands are out again: on an open job it is still to come, and nobody is in danger for want of it.
    private static bool IsAfterHands(EnergyDuty duty) =>
        duty
            is EnergyDuty.AreaInspected
                or EnergyDuty.PeopleClear
                or EnergyDuty.GroupAccounted
                or EnergyDuty.DeviceOffByOwner
                or EnergyDuty.AffectedToldAfter
                or EnergyDuty.ToldBeforeStart
                or EnergyDuty.OwnerAbsent
                or EnergyDuty.OwnerSought
                or EnergyDuty.OwnerTold
                or EnergyDuty.OutsideDeviceLeftAlone
                or EnergyDuty.BlockageCheckedAfter;
}
