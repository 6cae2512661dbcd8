namespace ServiceRules.Domain.Quantities;

/// <summary>How each unit of pressure is written, and exactly how large it is.</summary>
internal static class PressureUnits
{
    private const decimal SquareInchInMetres = 0.00064516m;

    /// <summary>The unit that a symbol names, or none; symbols are case-sensitive.</summary>
    public static PressureUnit? Named(string symbol) =>
        symbol switch
        {
            "bar" => PressureUnit.Bar,
            "kPa" => PressureUnit.Kilopascal,
            "psi" => PressureUnit.PoundPerSquareInch,
            _ => null,
        };

    /// <summary>The one symbol with which the unit is printed.</summary>
    public static string Symbol(this PressureUnit unit) =>
        unit switch
        {
            PressureUnit.Bar => "bar",
            PressureUnit.Kilopascal => "kPa",
            PressureUnit.PoundPerSquareInch => "psi",
            _ => throw new ArgumentOutOfRangeException(nameof(unit), unit, "not a unit of pressure"),
        };

    /// <summary>
    /// One unit in newtons per square inch, the one scale on which all three are finite decimals, so that
    /// comparison across units is exact. A pound-force is 4.4482216152605 N (NIST SP 811, 2008, B.8).
    /// </summary>
    public static decimal NewtonsPerSquareInch(this PressureUnit unit) =>
        unit switch
        {
            PressureUnit.Bar => 100_000m * SquareInchInMetres,
            PressureUnit.Kilopascal => 1_000m * SquareInchInMetres,
            PressureUnit.PoundPerSquareInch => 4.4482216152605m,
            _ => throw new ArgumentOutOfRangeException(nameof(unit), unit, "not a unit of pressure"),
        };
}
