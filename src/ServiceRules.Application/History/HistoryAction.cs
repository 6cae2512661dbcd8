namespace ServiceRules.Application.History;

/// <summary>Something that needs somebody.</summary>
/// <param name="Kind">What.</param>
/// <param name="Due">The day by which; null: now.</param>
/// <param name="Earliest">The earliest day it may come to, where a band is known.</param>
/// <param name="Unit">The unit; null where it is a gauge.</param>
/// <param name="Size">The size that it is about.</param>
/// <param name="Step">The adjuster that it is about.</param>
/// <param name="Gauge">The gauge that it is about.</param>
/// <param name="Pair">The gauges that it is about.</param>
public sealed record HistoryAction(
    ActionKind Kind,
    DateOnly? Due = null,
    DateOnly? Earliest = null,
    UnitOutlook? Unit = null,
    SizeOutlook? Size = null,
    StepOutlook? Step = null,
    GaugeOutlook? Gauge = null,
    GaugePairOutlook? Pair = null
);
