namespace ServiceRules.Domain.Quantities;

/// <summary>How each unit of speed is written, and exactly how large it is.</summary>
internal static class SpeedUnits
{
    /// <summary>The unit that a symbol names, or none; symbols are case-sensitive.</summary>
    public static SpeedUnit? Named(string symbol) =>
        symbol switch
        {
            "km/h" => SpeedUnit.KilometrePerHour,
            "mph" => SpeedUnit.MilePerHour,
            "m/min" => SpeedUnit.MetrePerMinute,
            _ => null,
        };

    /// <summary>The one symbol with which the unit is printed.</summary>
    public static string Symbol(this SpeedUnit unit) =>
        unit switch
        {
            SpeedUnit.KilometrePerHour => "km/h",
            SpeedUnit.MilePerHour => "mph",
            SpeedUnit.MetrePerMinute => "m/min",
            _ => throw new ArgumentOutOfRangeException(nameof(unit), unit, "not a unit of speed"),
        };

    /// <summary>
    /// One unit in metres per hour, where all three are finite decimals, so that comparison across units is exact. A
    /// mile is 1609.344 m (international mile, 1959).
    /// </summary>
    public static decimal MetresPerHour(this SpeedUnit unit) =>
        unit switch
        {
            SpeedUnit.KilometrePerHour => 1_000m,
            SpeedUnit.MilePerHour => 1_609.344m,
            SpeedUnit.MetrePerMinute => 60m,
            _ => throw new ArgumentOutOfRangeException(nameof(unit), unit, "not a unit of speed"),
        };
}
