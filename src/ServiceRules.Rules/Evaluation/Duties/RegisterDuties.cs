using System.Collections.Frozen;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>The duties that registers and claims show, each with all that the program knows of it.</summary>
internal static class RegisterDuties
{
    public static FrozenDictionary<EnergyDuty, DutyEntry> Table { get; } =
        new Dictionary<EnergyDuty, DutyEntry>
        {
            [EnergyDuty.WrittenProcedure] = new(WrittenProcedureDuty.Judge)
            {
                Verdicts = DutyEntry.NeverUnproven,
            },
            [EnergyDuty.ProcedureCoversSources] = new(ProcedureCoversSourcesDuty.Judge),
            [EnergyDuty.UndocumentedException] = new(UndocumentedExceptionDuty.Judge),
            [EnergyDuty.DeviceForLockoutOnly] = new(DeviceForLockoutOnlyDuty.Judge)
            {
                Verdicts = DutyEntry.NeverUnproven,
            },
            [EnergyDuty.DeviceOfSiteStyle] = new(DeviceOfSiteStyleDuty.Judge),
            [EnergyDuty.DeviceShowsOwner] = new(DeviceShowsOwnerDuty.Judge),
            [EnergyDuty.TagWarns] = new(TagWarnsDuty.Judge),
            [EnergyDuty.ProcedureInspected] = new(ProcedureInspectedDuty.Judge)
            {
                SuppressedBy = Suppressors.Exemption | Suppressors.NothingToInspect,
            },
            [EnergyDuty.InspectorIndependent] = new(InspectorIndependentDuty.Judge)
            {
                SuppressedBy = Suppressors.Exemption | Suppressors.NothingToInspect,
            },
            [EnergyDuty.InspectionFindingsClosed] = new(InspectionFindingsClosedDuty.Judge)
            {
                SuppressedBy = Suppressors.Exemption | Suppressors.NothingToInspect,
            },
            [EnergyDuty.InspectionReviewedWithEach] = new(InspectionReviewedWithEachDuty.Judge)
            {
                SuppressedBy = Suppressors.Exemption | Suppressors.NothingToInspect,
            },
            [EnergyDuty.InspectionTagReview] = new(InspectionTagReviewDuty.Judge)
            {
                SuppressedBy = Suppressors.Exemption | Suppressors.NothingToInspect,
            },
            [EnergyDuty.InspectionCertified] = new(InspectionCertifiedDuty.Judge)
            {
                SuppressedBy = Suppressors.Exemption | Suppressors.NothingToInspect,
            },
            [EnergyDuty.TrainedInEnergies] = new(TrainedInEnergiesDuty.Judge),
            [EnergyDuty.AffectedInstructed] = new(AffectedInstructedDuty.Judge),
            [EnergyDuty.TrainedInTags] = new(TrainedInTagsDuty.Judge),
            [EnergyDuty.RetrainedOnChange] = new(RetrainedOnChangeDuty.Judge),
            [EnergyDuty.RetrainedAfterFinding] = new(RetrainedAfterFindingDuty.Judge)
            {
                Verdicts = DutyEntry.NeverUnproven,
            },
            [EnergyDuty.TrainingCertified] = new(TrainingCertifiedDuty.Judge)
            {
                Verdicts = DutyEntry.NeverUnproven,
            },
            [EnergyDuty.OnlyAuthorisedHang] = new(OnlyAuthorisedHangDuty.Judge),
            [EnergyDuty.MinorServicingClaim] = new(MinorServicingClaimDuty.Judge)
            {
                SuppressedBy = Suppressors.None,
                Step = StepBeforeHands.Claimed,
            },
            [EnergyDuty.CordAndPlugClaim] = new(CordAndPlugClaimDuty.Judge)
            {
                SuppressedBy = Suppressors.None,
            },
            [EnergyDuty.CoverageDecided] = new(CoverageDecidedDuty.Judge) { Verdicts = [Verdict.Unproven] },
            [EnergyDuty.ElectricalRecord] = new(ElectricalRecordDuty.Judge)
            {
                Verdicts = DutyEntry.NeverUnproven,
            },
            [EnergyDuty.WorkByAuthorised] = new(WorkByAuthorisedDuty.Judge),
            [EnergyDuty.IsolationByAuthorised] = new(IsolationByAuthorisedDuty.Judge),
            [EnergyDuty.TrainingThroughWork] = new(TrainingThroughWorkDuty.Judge)
            {
                Verdicts = DutyEntry.NeverUnproven,
            },
            [EnergyDuty.InspectionThroughWork] = new(InspectionThroughWorkDuty.Judge)
            {
                SuppressedBy = Suppressors.Exemption | Suppressors.NothingToInspect,
                Verdicts = DutyEntry.NeverUnproven,
            },
            [EnergyDuty.PlaceAsRecorded] = new(PlaceAsRecordedDuty.Judge)
            {
                SuppressedBy = Suppressors.None,
                Verdicts = DutyEntry.NeverUnproven,
            },
            [EnergyDuty.OwnExceptionNotReleased] = new(OwnExceptionNotReleasedDuty.Judge)
            {
                SuppressedBy = Suppressors.None,
                Verdicts = DutyEntry.NeverUnproven,
            },
        }.ToFrozenDictionary();
}
