using System.Collections.Immutable;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Evaluation.Duties;
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
            Check.EnergyControl duty => !DutyTable.Of(duty.Of).IsDueAfterHands,
            // Somebody is about to rely on a lock that may hang on another machine.
            Check.Credibility { Of: CredibilityOf.LockInTwoPlaces } => true,
            _ => false,
        };
}
