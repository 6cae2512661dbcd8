namespace ServiceRules.Application.History;

/// <summary>What needs somebody. Closed; the order is that of weight among things due on one day.</summary>
public enum ActionKind
{
    /// <summary>A size is past its limit.</summary>
    PastLimit,

    /// <summary>The next grind would take a size past its limit.</summary>
    LastGrind,

    /// <summary>A gauge was off, or drifts.</summary>
    Gauge,

    /// <summary>Two gauges do not agree.</summary>
    GaugesPart,

    /// <summary>A unit is taken up much faster than it used to be.</summary>
    TakenUpFast,

    /// <summary>A unit is taken up much faster than its neighbours.</summary>
    OddOneOut,

    /// <summary>A step of an adjuster does not do what the sheet states.</summary>
    Step,

    /// <summary>A shield gap does not follow the reel.</summary>
    Shield,

    /// <summary>The relief behind the lands is due.</summary>
    Relief,

    /// <summary>The grinding interval runs out.</summary>
    Grind,

    /// <summary>Wear brings a size to its limit.</summary>
    Limit,
}
