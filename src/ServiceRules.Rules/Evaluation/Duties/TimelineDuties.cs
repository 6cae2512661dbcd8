using System.Collections.Frozen;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>The duties that the timeline shows, each with what judges it.</summary>
internal static class TimelineDuties
{
    public static FrozenDictionary<EnergyDuty, Func<DutyFrame, CheckOutcome>> Table { get; } =
        new Dictionary<EnergyDuty, Func<DutyFrame, CheckOutcome>>
        {
            [EnergyDuty.EnergyReviewed] = EnergyReviewedDuty.Judge,
            [EnergyDuty.OrderlyShutdown] = OrderlyShutdownDuty.Judge,
            [EnergyDuty.SourcesIsolated] = SourcesIsolatedDuty.Judge,
            [EnergyDuty.IsolatingDevice] = IsolatingDeviceDuty.Judge,
            [EnergyDuty.DeviceOnEachIsolator] = DeviceOnEachIsolatorDuty.Judge,
            [EnergyDuty.DeviceHoldsOff] = DeviceHoldsOffDuty.Judge,
            [EnergyDuty.LockWhereItFits] = TagDuties.LockWhereItFits,
            [EnergyDuty.TagAtLockPoint] = TagDuties.TagAtLockPoint,
            [EnergyDuty.StoredEnergyReleased] = StoredEnergyReleasedDuty.Judge,
            [EnergyDuty.BuildUpRechecked] = BuildUpRecheckedDuty.Judge,
            [EnergyDuty.IsolationVerified] = IsolationVerifiedDuty.Judge,
            [EnergyDuty.MakeSafeOrder] = MakeSafeOrderDuty.Judge,
            [EnergyDuty.AffectedTold] = AffectedToldDuty.Judge,
            [EnergyDuty.AffectedToldAfter] = AffectedToldAfterDuty.Judge,
            [EnergyDuty.ToldBeforeStart] = ToldBeforeStartDuty.Judge,
            [EnergyDuty.AreaInspected] = ClearBeforeRelease.AreaInspected,
            [EnergyDuty.PeopleClear] = ClearBeforeRelease.PeopleClear,
            [EnergyDuty.DeviceOffByOwner] = RemovalDuties.DeviceOffByOwner,
            [EnergyDuty.OwnerAbsent] = AbsentOwnerDuties.OwnerAbsent,
            [EnergyDuty.OwnerSought] = AbsentOwnerDuties.OwnerSought,
            [EnergyDuty.OwnerTold] = AbsentOwnerDuties.OwnerTold,
            [EnergyDuty.OutsideDeviceLeftAlone] = RemovalDuties.OutsideDeviceLeftAlone,
            [EnergyDuty.TestAreaClear] = TestClearDuties.AreaClear,
            [EnergyDuty.TestPeopleClear] = TestClearDuties.PeopleClear,
            [EnergyDuty.TestDeviceOwner] = RemovalDuties.TestDeviceOwner,
            [EnergyDuty.NoHandsWhileEnergised] = NoHandsWhileEnergisedDuty.Judge,
            [EnergyDuty.RelockedAfterTest] = RelockedAfterTestDuty.Judge,
            [EnergyDuty.ContractorsInformed] = ContractorsInformedDuty.Judge,
            [EnergyDuty.OwnDeviceInGroup] = OwnDeviceInGroupDuty.Judge,
            [EnergyDuty.PrimaryNamed] = GroupLeadDuties.PrimaryNamed,
            [EnergyDuty.GroupAccounted] = GroupLeadDuties.GroupAccounted,
            [EnergyDuty.CoordinatorNamed] = GroupLeadDuties.CoordinatorNamed,
            [EnergyDuty.HandoverContinuous] = HandoverContinuousDuty.Judge,
            [EnergyDuty.OwnDeviceThroughWork] = OwnDeviceThroughWorkDuty.Judge,
            [EnergyDuty.SourceAddedControlled] = SourceAddedControlledDuty.Judge,
            [EnergyDuty.EnergisedTaskApproved] = EnergisedTaskDuties.Approved,
            [EnergyDuty.EnergisedMeasuresFirst] = EnergisedTaskDuties.MeasuresFirst,
            [EnergyDuty.EnergisedRunLength] = RunLengthDuty.Judge,
            [EnergyDuty.AdjusterUntouchedWhileRunning] = AdjusterUntouchedDuty.Judge,
            [EnergyDuty.ShutDownAfterRun] = ShutDownAfterRunDuty.Judge,
            [EnergyDuty.EnergisedByAuthorised] = EnergisedByAuthorisedDuty.Judge,
            [EnergyDuty.NoGlovesNearTurningReel] = GlovesDuty.Judge,
            [EnergyDuty.BlockageStopped] = BlockageDuties.Stopped,
            [EnergyDuty.BlockagePressureReleased] = BlockageDuties.PressureReleased,
            [EnergyDuty.BlockageTool] = BlockageDuties.ByTool,
            [EnergyDuty.BlockageCheckedAfter] = BlockageDuties.CheckedAfter,
        }.ToFrozenDictionary();
}
