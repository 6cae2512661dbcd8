namespace ServiceRules.Domain.Measurement;

/// <summary>Where a contribution to an uncertainty comes from.</summary>
public enum UncertaintySource
{
    /// <summary>The calibration of the gauge, from its certificate.</summary>
    Calibration,

    /// <summary>The smallest step the gauge shows.</summary>
    Resolution,

    /// <summary>How well the gauge's zero was checked on a setting piece.</summary>
    ZeroCheck,

    /// <summary>The spread of repeated readings.</summary>
    Repeatability,

    /// <summary>A reading taken as one contribution to a computed value.</summary>
    Reading,

    /// <summary>A movement by an adjuster since the reading.</summary>
    Movement,

    /// <summary>Expansion of gauge and part away from 20 °C.</summary>
    Temperature,

    /// <summary>The scale of a gauge that nobody calibrated.</summary>
    Scale,

    /// <summary>How far the gauge's zero moved between the check before the job and the one after it.</summary>
    ZeroDrift,

    /// <summary>How far readings scatter about the line through them, beyond what their gauge explains.</summary>
    Scatter,

    /// <summary>A zero that nobody checked, taken for want of a check.</summary>
    ZeroUnchecked,

    /// <summary>How readings scatter where nobody states it, taken for want of a repeatability.</summary>
    RepeatabilityUnstated,
}
