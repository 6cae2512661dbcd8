namespace ServiceRules.Domain.Quantities;

/// <summary>A unit in which a ground speed may be stated.</summary>
public enum SpeedUnit
{
    /// <summary>Kilometres per hour, printed <c>km/h</c>.</summary>
    KilometrePerHour,

    /// <summary>Miles per hour, printed <c>mph</c>; exactly 1.609344 km/h.</summary>
    MilePerHour,

    /// <summary>Metres per minute, printed <c>m/min</c>: a paced distance by a stopwatch; exactly 0.06 km/h.</summary>
    MetrePerMinute,
}
