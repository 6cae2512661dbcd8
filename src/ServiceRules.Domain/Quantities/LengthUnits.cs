namespace ServiceRules.Domain.Quantities;

/// <summary>How each unit of length is written, and exactly how long it is.</summary>
internal static class LengthUnits
{
    /// <summary>The unit that a symbol names, or none; symbols are case-sensitive.</summary>
    public static LengthUnit? Named(string symbol) =>
        symbol switch
        {
            "mm" => LengthUnit.Millimetre,
            // The micro sign, the Greek letter mu, and the plain letter that keyboards have.
            "\u00B5m" or "\u03BCm" or "um" => LengthUnit.Micrometre,
            "in" => LengthUnit.Inch,
            "thou" => LengthUnit.Thousandth,
            _ => null,
        };

    /// <summary>The one symbol with which the unit is printed.</summary>
    public static string Symbol(this LengthUnit unit) =>
        unit switch
        {
            LengthUnit.Millimetre => "mm",
            LengthUnit.Micrometre => "\u00B5m",
            LengthUnit.Inch => "in",
            LengthUnit.Thousandth => "thou",
            _ => throw new ArgumentOutOfRangeException(nameof(unit), unit, "not a unit of length"),
        };

    /// <summary>The length of one unit. The inch is 25.4 mm by definition (24 FR 5348, 1959; NIST SP 811, 2008).</summary>
    public static decimal Millimetres(this LengthUnit unit) =>
        unit switch
        {
            LengthUnit.Millimetre => 1m,
            LengthUnit.Micrometre => 0.001m,
            LengthUnit.Inch => 25.4m,
            LengthUnit.Thousandth => 0.0254m,
            _ => throw new ArgumentOutOfRangeException(nameof(unit), unit, "not a unit of length"),
        };

    /// <summary>The system to which the unit belongs.</summary>
    public static UnitSystem System(this LengthUnit unit) =>
        unit is LengthUnit.Inch or LengthUnit.Thousandth ? UnitSystem.Inch : UnitSystem.Metric;
}
