using ServiceRules.Domain.Site;
using ServiceRules.Domain.Timeline;

namespace ServiceRules.Oracle.SafeWork;

/// <summary>What a gauge is told to have shown of a source whose procedure says how much is too much.</summary>
internal static class Gauge
{
    public static bool IsHigh(Step step, EnergySource source) =>
        IsToldOf(step, source) && step.Event.Pressure > source.RecheckLimit;

    public static bool IsLow(Step step, EnergySource source) =>
        IsToldOf(step, source) && step.Event.Pressure <= source.RecheckLimit;

    /// <summary>Shown too high before the work, at this step or at a later one: by this step nothing was done away with.</summary>
    public static bool ContradictsBeforeWork(Story story, Step step, EnergySource source) =>
        story.BeforeWork.Any(later => later.Place >= step.Place && IsHigh(later, source));

    private static bool IsToldOf(Step step, EnergySource source) =>
        step.IsOf(source.Id.Text)
        && step.Kind
            is TimelineEventKind.StoredEnergyReleased
                or TimelineEventKind.IsolationVerified
                or TimelineEventKind.StoredEnergyRechecked
        && step.Event.Pressure is not null
        && source.RecheckLimit is not null;
}
