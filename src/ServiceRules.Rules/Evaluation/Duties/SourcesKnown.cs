using ServiceRules.Rules.Evaluation.Timeline;

namespace ServiceRules.Rules.Evaluation.Duties;

/// <summary>Duties that are asked source by source need to know the sources.</summary>
internal static class SourcesKnown
{
    /// <summary>What a duty comes to where neither a procedure nor the register of machines says what there is; else null.</summary>
    public static CheckOutcome? Lacking(DutyFrame duty) =>
        EffectiveSources.AreKnown(duty.Reading) ? null : TimelineOutcome.NoProcedure(duty.Job);

    /// <summary>The same, and where nothing can be switched off.</summary>
    public static CheckOutcome? LackingIsolated(DutyFrame duty) =>
        Lacking(duty)
        ?? (
            duty.Sources.Any(source => source.HasIsolator)
                ? null
                : TimelineOutcome.NotApplicable("There is no energy source to switch off here.")
        );

    /// <summary>The same, and where nothing is stored.</summary>
    public static CheckOutcome? LackingStored(DutyFrame duty) =>
        Lacking(duty)
        ?? (
            duty.Sources.Any(source => source.Source.Stored)
                ? null
                : TimelineOutcome.NotApplicable("There is no stored energy here.")
        );
}
