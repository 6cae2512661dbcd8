using System.Globalization;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Measurement;

/// <summary>
/// The one way in which an uncertainty is printed, and a value beside it, wherever they are: the uncertainty to two
/// significant digits, rounded up so that it never looks smaller than it is, and the value to the same decimal place, ties
/// to even (JCGM 100:2008, 7.2.6). No finer than a millionth of the unit.
/// </summary>
public static class UncertaintyPrint
{
    private const decimal Finest = 0.000001m;

    /// <summary>The figure without its unit, in millimetres or inches.</summary>
    /// <param name="uncertainty">Zero or more.</param>
    /// <param name="system">The units to print in.</param>
    /// <param name="finer">How many digits more than two, where two would hide on which side of it something lies.</param>
    public static string Figure(Length uncertainty, UnitSystem system, int finer = 0) =>
        Print(In(uncertainty, system), decimal.Ceiling, finer);

    /// <summary>The figure with its unit.</summary>
    /// <param name="uncertainty">Zero or more.</param>
    /// <param name="system">The units to print in.</param>
    public static string Of(Length uncertainty, UnitSystem system) =>
        $"{Figure(uncertainty, system)} {Unit(system)}";

    /// <summary>The most that an uncertainty may be: two significant digits, rounded down, with the unit.</summary>
    /// <param name="most">Zero or more.</param>
    /// <param name="system">The units to print in.</param>
    public static string AtMost(Length most, UnitSystem system) =>
        $"{Print(In(most, system), decimal.Floor, 0)} {Unit(system)}";

    /// <summary>
    /// A value without its unit, to the decimal place of the uncertainty that stands beside it; to 0.0001 mm or 0.00001 in
    /// where that is nothing.
    /// </summary>
    /// <param name="value">Any length.</param>
    /// <param name="uncertainty">Its expanded uncertainty, zero or more.</param>
    /// <param name="system">The units to print in.</param>
    /// <param name="finer">How many digits more than two the uncertainty is printed with.</param>
    public static string ValueFigure(Length value, Length uncertainty, UnitSystem system, int finer = 0)
    {
        var doubt = In(uncertainty, system);
        var figure = In(value, system);
        if (doubt == 0m)
        {
            return system is UnitSystem.Inch ? Plain(figure, 5, "0.000##") : Plain(figure, 4, "0.00##");
        }

        var quantum = QuantumOf(doubt, decimal.Ceiling, finer);
        return Figured(Math.Round(figure / quantum) * quantum, quantum);
    }

    /// <summary>A value with its uncertainty, each with the unit: <c>4.020 mm ± 0.014 mm</c>.</summary>
    /// <param name="value">Any length.</param>
    /// <param name="uncertainty">Its expanded uncertainty, zero or more.</param>
    /// <param name="system">The units to print in.</param>
    public static string Beside(Length value, Length uncertainty, UnitSystem system) =>
        $"{ValueFigure(value, uncertainty, system)} {Unit(system)} ± {Of(uncertainty, system)}";

    private static string Unit(UnitSystem system) => system is UnitSystem.Inch ? "in" : "mm";

    private static decimal In(Length length, UnitSystem system) =>
        system is UnitSystem.Inch ? length.Millimetres / 25.4m : length.Millimetres;

    private static string Print(decimal figure, Func<decimal, decimal> rounded, int finer)
    {
        if (figure == 0m)
        {
            return "0.00";
        }

        var quantum = QuantumOf(figure, rounded, finer);
        return Figured(rounded(figure / quantum) * quantum, quantum);
    }

    /// <summary>One of the second significant digit that the figure has once it is rounded, or of a later one.</summary>
    private static decimal QuantumOf(decimal figure, Func<decimal, decimal> rounded, int finer)
    {
        var quantum = Finest;
        while (rounded(figure / quantum) >= 100)
        {
            quantum *= 10;
        }

        for (var digit = 0; digit < finer && quantum > Finest; digit++)
        {
            quantum /= 10;
        }

        return quantum;
    }

    /// <summary>With as many decimals as its last digit asks for.</summary>
    private static string Figured(decimal figure, decimal quantum)
    {
        var decimals = 0;
        for (var place = quantum; place < 1m; place *= 10)
        {
            decimals++;
        }

        return Plain(figure, decimals, "0." + new string('0', decimals));
    }

    private static string Plain(decimal figure, int decimals, string format) =>
        Math.Round(figure, decimals).ToString(format, CultureInfo.InvariantCulture);
}
