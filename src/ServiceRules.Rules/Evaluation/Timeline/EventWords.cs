using ServiceRules.Domain.Timeline;

namespace ServiceRules.Rules.Evaluation.Timeline;

/// <summary>What a step is called after <c>the record shows</c> and <c>the record does not show</c>.</summary>
internal static class EventWords
{
    public static string Done(TimelineEventKind kind) =>
        kind switch
        {
            TimelineEventKind.AffectedNotifiedBefore => "the people affected told beforehand",
            TimelineEventKind.EnergyReviewed => "the energy sources and controls gone through",
            TimelineEventKind.DriveDisengaged => "the reel drive disengaged",
            TimelineEventKind.UnitsLowered => "the units lowered",
            TimelineEventKind.ParkingBrakeSet => "the parking brake set",
            TimelineEventKind.MachineShutDown => "the machine shut down",
            TimelineEventKind.KeyRemoved => "the key out and kept",
            TimelineEventKind.SeenAtRest => "everything seen at rest",
            TimelineEventKind.IsolatorOperated => "the isolator turned off",
            TimelineEventKind.PlugRemoved => "the plug pulled",
            TimelineEventKind.PlugControlConfirmed => "the plug kept under control",
            TimelineEventKind.LockApplied => "a lock put on",
            TimelineEventKind.TagApplied => "a tag put on",
            TimelineEventKind.StoredEnergyReleased => "the stored energy released",
            TimelineEventKind.ReelWedged => "the reel wedged",
            TimelineEventKind.UnitSupported => "the unit supported",
            TimelineEventKind.GlovesWorn => "gloves worn",
            TimelineEventKind.IsolationVerified => "the isolation verified",
            TimelineEventKind.WorkStarted => "work started",
            TimelineEventKind.WorkStopped => "work stopped",
            TimelineEventKind.StoredEnergyRechecked => "the stored energy checked again",
            TimelineEventKind.BlockageClearedWithTool => "the blockage cleared with a tool",
            TimelineEventKind.BlockageClearedByHand => "the blockage cleared by hand",
            TimelineEventKind.AreaInspected => "the area inspected",
            TimelineEventKind.GuardsRefitted => "the guards back in place",
            TimelineEventKind.CutOutsProved => "the cut-outs proved",
            TimelineEventKind.SafetyDefectFound => "a safety defect found",
            TimelineEventKind.SafetyDefectClosed => "a safety defect put right",
            TimelineEventKind.PeopleClearChecked => "people seen to be clear",
            TimelineEventKind.ExposureChecked => "the people of the group accounted for",
            TimelineEventKind.LockRemoved => "the lock taken off",
            TimelineEventKind.TagRemoved => "the tag taken off",
            TimelineEventKind.RemovalNotified => "the people affected told after removal",
            TimelineEventKind.MachineStarted => "the machine started",
            TimelineEventKind.HandedBack => "the machine handed back",
            TimelineEventKind.TestEnergised => "the machine energised for a test",
            TimelineEventKind.TestEnded => "the test ended",
            TimelineEventKind.EnergisedTaskPerformed => "the task on the running reel done",
            TimelineEventKind.AlternativeMeasuresRecorded => "the alternative measures recorded",
            TimelineEventKind.PrimaryAssigned => "one person put in charge of the group",
            TimelineEventKind.CoordinatorAssigned => "a coordinator of the crews named",
            TimelineEventKind.ContractorProceduresExchanged =>
                "procedures exchanged with the outside employer",
            TimelineEventKind.HandoverBriefed => "the handover briefed",
            TimelineEventKind.AbsenceConfirmed => "the absence of the lock's owner confirmed",
            TimelineEventKind.ContactAttempted => "an attempt to reach the lock's owner",
            TimelineEventKind.OwnerInformed => "the lock's owner informed",
            TimelineEventKind.ResumedWork => "the lock's owner back at work",
            TimelineEventKind.ExemptionClaimed => "an exemption claimed",
            TimelineEventKind.SourceAdded => "a source added",
            _ => throw new ArgumentOutOfRangeException(
                nameof(kind),
                kind,
                "kinds of event are a closed family"
            ),
        };

    /// <summary>What one entry is called: an isolator may be turned on as well.</summary>
    public static string Done(TimelineEvent entry) =>
        entry is { Kind: TimelineEventKind.IsolatorOperated, Position: IsolatorPosition.On }
            ? "the isolator turned on"
            : Done(entry.Kind);

    /// <summary>Any one of several steps, as one phrase.</summary>
    public static string AnyOf(IEnumerable<TimelineEventKind> kinds) =>
        string.Join(" or ", kinds.Select(Done));
}
