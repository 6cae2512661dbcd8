using ServiceRules.Domain.Timeline;
using ServiceRules.Rules.Evaluation.Duties;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation;

/// <summary>
/// Which step a rule asks for before hands go in, so that what is missing on a job that goes on can be told in the order
/// in which it is done.
/// </summary>
public static class StepsBeforeHands
{
    /// <summary>The step that a check asks for before hands go in; null: none.</summary>
    public static StepBeforeHands? Of(Check check) =>
        check switch
        {
            Check.RequiredEvent { When: RequiredWhen.BeforeWork } step => step.Events.Min(Of),
            Check.OrderOfEvents => StepBeforeHands.Verified,
            Check.Protection => StepBeforeHands.Protected,
            Check.EnergyControl duty => DutyTable.Of(duty.Of).Step,
            _ => null,
        };

    private static StepBeforeHands Of(TimelineEventKind kind) =>
        kind switch
        {
            TimelineEventKind.AffectedNotifiedBefore
            or TimelineEventKind.PrimaryAssigned
            or TimelineEventKind.CoordinatorAssigned
            or TimelineEventKind.ContractorProceduresExchanged => StepBeforeHands.Told,
            TimelineEventKind.EnergyReviewed => StepBeforeHands.Reviewed,
            TimelineEventKind.DriveDisengaged => StepBeforeHands.DriveDisengaged,
            TimelineEventKind.UnitsLowered or TimelineEventKind.UnitSupported => StepBeforeHands.UnitsDown,
            TimelineEventKind.ParkingBrakeSet => StepBeforeHands.BrakeSet,
            TimelineEventKind.MachineShutDown => StepBeforeHands.ShutDown,
            TimelineEventKind.KeyRemoved => StepBeforeHands.KeyRemoved,
            TimelineEventKind.SeenAtRest => StepBeforeHands.SeenAtRest,
            TimelineEventKind.IsolatorOperated or TimelineEventKind.PlugRemoved => StepBeforeHands.Isolated,
            TimelineEventKind.PlugControlConfirmed
            or TimelineEventKind.LockApplied
            or TimelineEventKind.TagApplied => StepBeforeHands.Held,
            TimelineEventKind.StoredEnergyReleased => StepBeforeHands.Released,
            TimelineEventKind.ReelWedged => StepBeforeHands.ReelWedged,
            TimelineEventKind.IsolationVerified => StepBeforeHands.Verified,
            TimelineEventKind.AlternativeMeasuresRecorded => StepBeforeHands.MeasuresRecorded,
            TimelineEventKind.GlovesWorn => StepBeforeHands.GlovesWorn,
            _ => StepBeforeHands.Other,
        };
}
