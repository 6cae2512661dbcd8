using System.Globalization;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Reporting.Reports.Wall;

/// <summary>
/// A figure of a sheet in one system of units: as printed there, or else worked out from the other system and rounded to
/// the side on which nothing is let through that the sheet would not.
/// </summary>
/// <param name="Text">The figure without its unit.</param>
/// <param name="IsPrinted">Whether the sheet prints it.</param>
internal sealed record CarriedFigure(string Text, bool IsPrinted)
{
    private const decimal InchMillimetres = 25.4m;

    /// <summary>What the figure of a print is in a system.</summary>
    /// <param name="print">The print.</param>
    /// <param name="system">The system of the column.</param>
    /// <param name="bound">What the figure bounds, which says where to round.</param>
    public static CarriedFigure Of(DualPrint print, UnitSystem system, FigureBound bound)
    {
        var printed = print.Governing.System == system ? print.Governing : print.Alternate;
        return printed is { Unit: LengthUnit.Millimetre or LengthUnit.Inch }
            ? new(Bare(printed), true)
            : new(
                Carried(printed ?? print.Governing, system, bound, printed is not null),
                printed is not null
            );
    }

    /// <summary>Micrometres and thousandths in the column's own unit are the same figure, exactly.</summary>
    private static string Carried(PrintedLength from, UnitSystem system, FigureBound bound, bool isSameSystem)
    {
        var exact =
            system == UnitSystem.Inch ? from.Value.Millimetres / InchMillimetres : from.Value.Millimetres;
        if (isSameSystem)
        {
            return exact.ToString("0.####################", CultureInfo.InvariantCulture);
        }

        // What would vanish by rounding keeps as many places as it needs.
        for (var decimals = Decimals(from, system); ; decimals++)
        {
            var rounded = Rounded(exact, decimals, bound);
            if (rounded != 0 || exact == 0)
            {
                return rounded.ToString($"F{decimals}", CultureInfo.InvariantCulture);
            }
        }
    }

    private static decimal Rounded(decimal exact, int decimals, FigureBound bound)
    {
        var scale = 1m;
        for (var place = 0; place < decimals; place++)
        {
            scale *= 10;
        }

        return bound switch
        {
            FigureBound.AtLeast => Math.Ceiling(exact * scale) / scale,
            FigureBound.AtMost => Math.Floor(exact * scale) / scale,
            _ => Math.Round(exact, decimals, MidpointRounding.ToEven),
        };
    }

    /// <summary>As fine as the print is: a last digit of an inch is worth a decimal place more than one of a millimetre.</summary>
    private static int Decimals(PrintedLength from, UnitSystem system)
    {
        var lastDigit = 2 * from.RoundingHalfWidth.Millimetres;
        var unit = system == UnitSystem.Inch ? InchMillimetres : 1m;
        var decimals = 0;
        for (var step = unit; step > lastDigit && decimals < 5; step /= 10)
        {
            decimals++;
        }

        return decimals;
    }

    private static string Bare(PrintedLength print)
    {
        var text = print.ToString();
        return text[..text.LastIndexOf(' ')];
    }
}
