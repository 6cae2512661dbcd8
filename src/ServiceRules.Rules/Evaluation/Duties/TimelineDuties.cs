using System.Collections.Frozen;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>The duties that the timeline shows, each with all that the program knows of it.</summary>
internal static class TimelineDuties
{
    public static FrozenDictionary<EnergyDuty, DutyEntry> Table { get; } =
        new Dictionary<EnergyDuty, DutyEntry>
        {
            [EnergyDuty.EnergyReviewed] = new(EnergyReviewedDuty.Judge) { Step = StepBeforeHands.Reviewed },
            [EnergyDuty.OrderlyShutdown] = new(OrderlyShutdownDuty.Judge) { Step = StepBeforeHands.ShutDown },
            [EnergyDuty.SourcesIsolated] = new(SourcesIsolatedDuty.Judge)
            {
                Step = StepBeforeHands.Isolated,
                Danger = HandsDanger.NotSwitchedOff,
            },
            [EnergyDuty.IsolatingDevice] = new(IsolatingDeviceDuty.Judge),
            [EnergyDuty.DeviceOnEachIsolator] = new(DeviceOnEachIsolatorDuty.Judge)
            {
                Step = StepBeforeHands.Held,
                Danger = HandsDanger.NotSwitchedOff,
            },
            [EnergyDuty.DeviceHoldsOff] = new(DeviceHoldsOffDuty.Judge)
            {
                Danger = HandsDanger.NotSwitchedOff,
            },
            [EnergyDuty.LockWhereItFits] = new(TagDuties.LockWhereItFits),
            [EnergyDuty.TagAtLockPoint] = new(TagDuties.TagAtLockPoint),
            [EnergyDuty.StoredEnergyReleased] = new(StoredEnergyReleasedDuty.Judge)
            {
                Step = StepBeforeHands.Released,
                Danger = HandsDanger.NotProvenDead,
            },
            [EnergyDuty.BuildUpRechecked] = new(BuildUpRecheckedDuty.Judge)
            {
                Danger = HandsDanger.NotProvenDead,
            },
            [EnergyDuty.IsolationVerified] = new(IsolationVerifiedDuty.Judge)
            {
                Step = StepBeforeHands.Verified,
                Danger = HandsDanger.NotProvenDead,
            },
            [EnergyDuty.MakeSafeOrder] = new(MakeSafeOrderDuty.Judge) { Step = StepBeforeHands.Verified },
            [EnergyDuty.AffectedTold] = new(AffectedToldDuty.Judge)
            {
                SuppressedBy = Suppressors.Exemption | Suppressors.NoDevice,
                Step = StepBeforeHands.Told,
            },
            [EnergyDuty.AffectedToldAfter] = new(AffectedToldAfterDuty.Judge)
            {
                SuppressedBy = Suppressors.Exemption | Suppressors.NoDevice,
                IsDueAfterHands = true,
            },
            [EnergyDuty.ToldBeforeStart] = new(ToldBeforeStartDuty.Judge)
            {
                SuppressedBy = Suppressors.Exemption | Suppressors.NoDevice,
                IsDueAfterHands = true,
            },
            [EnergyDuty.AreaInspected] = new(ClearBeforeRelease.AreaInspected)
            {
                SuppressedBy = Suppressors.Exemption | Suppressors.NoDevice,
                IsDueAfterHands = true,
            },
            [EnergyDuty.PeopleClear] = new(ClearBeforeRelease.PeopleClear)
            {
                SuppressedBy = Suppressors.Exemption | Suppressors.NoDevice,
                IsDueAfterHands = true,
            },
            [EnergyDuty.DeviceOffByOwner] = new(RemovalDuties.DeviceOffByOwner)
            {
                IsDueAfterHands = true,
                Danger = HandsDanger.DeviceTakenOff,
            },
            [EnergyDuty.OwnerAbsent] = new(AbsentOwnerDuties.OwnerAbsent) { IsDueAfterHands = true },
            [EnergyDuty.OwnerSought] = new(AbsentOwnerDuties.OwnerSought) { IsDueAfterHands = true },
            [EnergyDuty.OwnerTold] = new(AbsentOwnerDuties.OwnerTold) { IsDueAfterHands = true },
            [EnergyDuty.OutsideDeviceLeftAlone] = new(RemovalDuties.OutsideDeviceLeftAlone)
            {
                IsDueAfterHands = true,
            },
            [EnergyDuty.TestAreaClear] = new(TestClearDuties.AreaClear),
            [EnergyDuty.TestPeopleClear] = new(TestClearDuties.PeopleClear),
            [EnergyDuty.TestDeviceOwner] = new(RemovalDuties.TestDeviceOwner),
            [EnergyDuty.NoHandsWhileEnergised] = new(NoHandsWhileEnergisedDuty.Judge)
            {
                Danger = HandsDanger.MachineLive,
            },
            [EnergyDuty.RelockedAfterTest] = new(RelockedAfterTestDuty.Judge)
            {
                Step = StepBeforeHands.Verified,
                Danger = HandsDanger.NothingHeld,
            },
            [EnergyDuty.ContractorsInformed] = new(ContractorsInformedDuty.Judge)
            {
                Step = StepBeforeHands.Told,
            },
            [EnergyDuty.OwnDeviceInGroup] = new(OwnDeviceInGroupDuty.Judge)
            {
                SuppressedBy = Suppressors.Exemption | Suppressors.NoGroup,
                Step = StepBeforeHands.Held,
                Danger = HandsDanger.NothingHeld,
            },
            [EnergyDuty.PrimaryNamed] = new(GroupLeadDuties.PrimaryNamed)
            {
                SuppressedBy = Suppressors.Exemption | Suppressors.NoGroup,
                Step = StepBeforeHands.Told,
            },
            [EnergyDuty.GroupAccounted] = new(GroupLeadDuties.GroupAccounted)
            {
                SuppressedBy = Suppressors.Exemption | Suppressors.NoGroup,
                IsDueAfterHands = true,
            },
            [EnergyDuty.CoordinatorNamed] = new(GroupLeadDuties.CoordinatorNamed)
            {
                SuppressedBy = Suppressors.Exemption | Suppressors.NoGroup,
                Step = StepBeforeHands.Told,
            },
            [EnergyDuty.HandoverContinuous] = new(HandoverContinuousDuty.Judge)
            {
                Danger = HandsDanger.NothingHeld,
            },
            [EnergyDuty.OwnDeviceThroughWork] = new(OwnDeviceThroughWorkDuty.Judge)
            {
                Step = StepBeforeHands.Held,
                Danger = HandsDanger.NothingHeld,
                Does = [EnergyDuty.DeviceOnEachIsolator, EnergyDuty.OwnDeviceInGroup],
            },
            [EnergyDuty.ClearOfOtherRecords] = new(ClearOfOtherRecordsDuty.Judge)
            {
                SuppressedBy = Suppressors.None,
                Danger = HandsDanger.MachineLive,
            },
            [EnergyDuty.SourceAddedControlled] = new(SourceAddedControlledDuty.Judge)
            {
                Step = StepBeforeHands.Verified,
                Danger = HandsDanger.NothingHeld,
            },
            [EnergyDuty.EnergisedTaskApproved] = new(EnergisedTaskDuties.Approved)
            {
                SuppressedBy = Suppressors.None,
            },
            [EnergyDuty.EnergisedMeasuresFirst] = new(EnergisedTaskDuties.MeasuresFirst)
            {
                SuppressedBy = Suppressors.None,
                Step = StepBeforeHands.MeasuresRecorded,
            },
            [EnergyDuty.EnergisedRunLength] = new(RunLengthDuty.Judge) { SuppressedBy = Suppressors.None },
            [EnergyDuty.AdjusterUntouchedWhileRunning] = new(AdjusterUntouchedDuty.Judge)
            {
                SuppressedBy = Suppressors.None,
                Danger = HandsDanger.MachineLive,
            },
            [EnergyDuty.ShutDownAfterRun] = new(ShutDownAfterRunDuty.Judge)
            {
                Step = StepBeforeHands.ShutDown,
            },
            [EnergyDuty.EnergisedByAuthorised] = new(EnergisedByAuthorisedDuty.Judge)
            {
                Danger = HandsDanger.MachineLive,
            },
            [EnergyDuty.NoGlovesNearTurningReel] = new(GlovesDuty.Judge) { SuppressedBy = Suppressors.None },
            [EnergyDuty.BlockageStopped] = new(BlockageDuties.Stopped)
            {
                SuppressedBy = Suppressors.None,
                Step = StepBeforeHands.SeenAtRest,
            },
            [EnergyDuty.BlockagePressureReleased] = new(BlockageDuties.PressureReleased)
            {
                SuppressedBy = Suppressors.None,
                Step = StepBeforeHands.Released,
            },
            [EnergyDuty.BlockageTool] = new(BlockageDuties.ByTool)
            {
                SuppressedBy = Suppressors.None,
                IsDueAfterHands = true,
            },
            [EnergyDuty.BlockageCheckedAfter] = new(BlockageDuties.CheckedAfter)
            {
                SuppressedBy = Suppressors.None,
                IsDueAfterHands = true,
            },
        }.ToFrozenDictionary();
}
