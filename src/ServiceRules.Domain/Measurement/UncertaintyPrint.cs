using System.Globalization;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Measurement;

/// <summary>
/// The one way in which an uncertainty is printed, wherever it is: two significant digits, rounded up so that it never looks
/// smaller than it is (JCGM 100:2008, 7.2.6). No finer than a millionth of the unit.
/// </summary>
public static class UncertaintyPrint
{
    private const decimal Finest = 0.000001m;

    /// <summary>The figure without its unit, in millimetres or inches.</summary>
    /// <param name="uncertainty">Zero or more.</param>
    /// <param name="system">The units to print in.</param>
    public static string Figure(Length uncertainty, UnitSystem system) =>
        Print(uncertainty, system, decimal.Ceiling);

    /// <summary>The figure with its unit.</summary>
    /// <param name="uncertainty">Zero or more.</param>
    /// <param name="system">The units to print in.</param>
    public static string Of(Length uncertainty, UnitSystem system) =>
        $"{Figure(uncertainty, system)} {Unit(system)}";

    /// <summary>The most that an uncertainty may be: two significant digits, rounded down, with the unit.</summary>
    /// <param name="most">Zero or more.</param>
    /// <param name="system">The units to print in.</param>
    public static string AtMost(Length most, UnitSystem system) =>
        $"{Print(most, system, decimal.Floor)} {Unit(system)}";

    private static string Unit(UnitSystem system) => system is UnitSystem.Inch ? "in" : "mm";

    private static string Print(Length length, UnitSystem system, Func<decimal, decimal> rounded)
    {
        var figure = system is UnitSystem.Inch ? length.Millimetres / 25.4m : length.Millimetres;
        var quantum = Finest;
        while (figure >= 100 * quantum)
        {
            quantum *= 10;
        }

        return (rounded(figure / quantum) * quantum).ToString("0.00####", CultureInfo.InvariantCulture);
    }
}
