using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Records;

/// <summary>
/// Whether a gauge states how its readings scatter. A deviation of nothing, or finer than any gauge shows a step, is none: readings
/// that came out alike say that the scatter is less than a step, and not that there is none.
/// </summary>
public static class StatedScatter
{
    /// <summary>Whether it states one that says something.</summary>
    /// <param name="gauge">The gauge.</param>
    public static bool IsStated(Instrument gauge)
    {
        ArgumentNullException.ThrowIfNull(gauge);
        return IsSome(gauge.Repeatability)
            || gauge.RepeatabilityStudies.Any(study => IsSome(study.Deviation));
    }

    /// <summary>The deviation that it states and that says nothing; none where it states one that does, or none at all.</summary>
    /// <param name="gauge">The gauge.</param>
    public static PrintedLength? SaysNothing(Instrument gauge)
    {
        ArgumentNullException.ThrowIfNull(gauge);
        return IsStated(gauge)
            ? null
            : gauge.Repeatability ?? gauge.RepeatabilityStudies.FirstOrDefault()?.Deviation;
    }

    private static bool IsSome(PrintedLength? deviation) =>
        deviation?.Value.Abs >= GaugeStep.FinestOf(InstrumentKind.HeightGauge);
}
