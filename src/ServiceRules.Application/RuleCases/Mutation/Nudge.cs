using System.Diagnostics.CodeAnalysis;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Application.RuleCases.Mutation;

/// <summary>Moves a printed limit: one of its figures by one unit of its last digit, or all of it by about a quarter.</summary>
public static class Nudge
{
    private const decimal Share = 0.25m;

    /// <summary>The prints that a limit is moved to.</summary>
    public static IEnumerable<DualPrint> Of(DualPrint print)
    {
        foreach (var steps in (int[])[-1, 1])
        {
            if (
                TryMove(print.Governing, steps, out var governing)
                && With(governing, print.Alternate) is { } one
            )
            {
                yield return one;
            }

            if (
                print.Alternate is { } alternate
                && TryMove(alternate, steps, out var other)
                && With(print.Governing, other) is { } two
            )
            {
                yield return two;
            }
        }

        foreach (var direction in (int[])[-1, 1])
        {
            if (
                TryMove(print.Governing, direction * Many(print.Governing), out var governing)
                && Beside(print.Alternate, direction) is var alternate
                && (print.Alternate is null) == (alternate is null)
                && With(governing, alternate) is { } both
            )
            {
                yield return both;
            }
        }
    }

    /// <summary>A ratio, moved by one unit of its last digit or a quarter.</summary>
    public static IEnumerable<decimal> Of(decimal ratio)
    {
        var step = new decimal(1, 0, 0, false, ratio.Scale) / 10m;
        return new[] { ratio - step, ratio + step, ratio * (1 - Share), ratio * (1 + Share) }.Where(one =>
            one > 0
        );
    }

    private static PrintedLength? Beside(PrintedLength? alternate, int direction) =>
        alternate is not null && TryMove(alternate, direction * Many(alternate), out var moved)
            ? moved
            : null;

    private static int Many(PrintedLength print) =>
        Math.Max(2, (int)decimal.Round(print.Value.Abs.Millimetres / Step(print) * Share));

    private static decimal Step(PrintedLength print) => print.RoundingHalfWidth.Millimetres * 2;

    /// <summary>Never beyond nothing: a limit of the other sign is no slip of a digit.</summary>
    private static bool TryMove(PrintedLength print, int steps, [NotNullWhen(true)] out PrintedLength? moved)
    {
        var to = print.Value.Millimetres + (steps * Step(print));
        moved = null;
        return to != 0
            && to > 0 == print.Value.Millimetres > 0
            && PrintedLength
                .Of(AsPrinted(to / In(print.Unit).Millimetres, print), print.Unit)
                .TryGet(out moved, out _);
    }

    /// <summary>A figure with as many digits as the print has; a fraction turns into as many as it needs.</summary>
    private static decimal AsPrinted(decimal figure, PrintedLength print)
    {
        var number = print.ToString().Split(' ')[0];
        if (print.ToString().Contains('/', StringComparison.Ordinal))
        {
            // Without the zeros that dividing leaves behind.
            return figure / 1.0000000000000000000000000000m;
        }

        var digits = number.Length - 1 - number.IndexOf('.', StringComparison.Ordinal);
        return number.Contains('.', StringComparison.Ordinal)
            ? decimal.Round(figure, digits) + new decimal(0, 0, 0, false, (byte)digits)
            : decimal.Round(figure);
    }

    private static Length In(LengthUnit unit) =>
        unit switch
        {
            LengthUnit.Inch => Length.FromInches(1),
            LengthUnit.Thousandth => Length.FromInches(0.001m),
            LengthUnit.Micrometre => Length.FromMillimetres(0.001m),
            _ => Length.FromMillimetres(1),
        };

    private static DualPrint? With(PrintedLength governing, PrintedLength? alternate) =>
        alternate is null ? DualPrint.Of(governing)
        : DualPrint.Of(governing, alternate).TryGet(out var print, out _) ? print
        : null;
}
