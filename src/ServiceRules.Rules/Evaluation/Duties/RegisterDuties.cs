using System.Collections.Frozen;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>The duties that registers and claims show, each with what judges it.</summary>
internal static class RegisterDuties
{
    public static FrozenDictionary<EnergyDuty, Func<DutyFrame, CheckOutcome>> Table { get; } =
        new Dictionary<EnergyDuty, Func<DutyFrame, CheckOutcome>>
        {
            [EnergyDuty.WrittenProcedure] = WrittenProcedureDuty.Judge,
            [EnergyDuty.ProcedureCoversSources] = ProcedureCoversSourcesDuty.Judge,
            [EnergyDuty.UndocumentedException] = UndocumentedExceptionDuty.Judge,
            [EnergyDuty.DeviceForLockoutOnly] = DeviceForLockoutOnlyDuty.Judge,
            [EnergyDuty.DeviceOfSiteStyle] = DeviceOfSiteStyleDuty.Judge,
            [EnergyDuty.DeviceShowsOwner] = DeviceShowsOwnerDuty.Judge,
            [EnergyDuty.TagWarns] = TagWarnsDuty.Judge,
            [EnergyDuty.ProcedureInspected] = ProcedureInspectedDuty.Judge,
            [EnergyDuty.InspectorIndependent] = InspectorIndependentDuty.Judge,
            [EnergyDuty.InspectionFindingsClosed] = InspectionFindingsClosedDuty.Judge,
            [EnergyDuty.InspectionReviewedWithEach] = InspectionReviewedWithEachDuty.Judge,
            [EnergyDuty.InspectionTagReview] = InspectionTagReviewDuty.Judge,
            [EnergyDuty.InspectionCertified] = InspectionCertifiedDuty.Judge,
            [EnergyDuty.TrainedInEnergies] = TrainedInEnergiesDuty.Judge,
            [EnergyDuty.AffectedInstructed] = AffectedInstructedDuty.Judge,
            [EnergyDuty.TrainedInTags] = TrainedInTagsDuty.Judge,
            [EnergyDuty.RetrainedOnChange] = RetrainedOnChangeDuty.Judge,
            [EnergyDuty.RetrainedAfterFinding] = RetrainedAfterFindingDuty.Judge,
            [EnergyDuty.TrainingCertified] = TrainingCertifiedDuty.Judge,
            [EnergyDuty.OnlyAuthorisedHang] = OnlyAuthorisedHangDuty.Judge,
            [EnergyDuty.MinorServicingClaim] = MinorServicingClaimDuty.Judge,
            [EnergyDuty.CordAndPlugClaim] = CordAndPlugClaimDuty.Judge,
            [EnergyDuty.CoverageDecided] = CoverageDecidedDuty.Judge,
            [EnergyDuty.ElectricalRecord] = ElectricalRecordDuty.Judge,
            [EnergyDuty.WorkByAuthorised] = WorkByAuthorisedDuty.Judge,
            [EnergyDuty.TrainingThroughWork] = TrainingThroughWorkDuty.Judge,
            [EnergyDuty.InspectionThroughWork] = InspectionThroughWorkDuty.Judge,
            [EnergyDuty.OwnExceptionNotReleased] = OwnExceptionNotReleasedDuty.Judge,
        }.ToFrozenDictionary();
}
