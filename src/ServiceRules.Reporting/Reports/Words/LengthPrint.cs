using System.Globalization;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Reporting.Reports.Words;

/// <summary>Lengths as statements print them, in the units in which they were read.</summary>
public static class LengthPrint
{
    private const decimal Inch = 25.4m;
    private const int MetricDecimals = 4;
    private const int InchDecimals = 5;
    private const int MostFiner = 3;

    /// <summary>The figure without its unit, to 0.0001 mm or 0.00001 in.</summary>
    public static string Figure(Length length, UnitSystem system) => Figure(length, system, Decimals(system));

    /// <summary>The figure without its unit to the digits of a budget, for what is reckoned through step by step.</summary>
    public static string Exact(Length length, UnitSystem system) =>
        Figure(length, system, system == UnitSystem.Inch ? InchDecimals + 2 : MetricDecimals + 2);

    public static string Unit(UnitSystem system) => system == UnitSystem.Inch ? "in" : "mm";

    public static string Of(Length length, UnitSystem system) => $"{Figure(length, system)} {Unit(system)}";

    /// <summary>A lower bound without its unit, rounded down: nothing less is promised than is known.</summary>
    public static string AtLeastFigure(Length bound, UnitSystem system) =>
        Outward(bound, system, decimal.Floor);

    /// <summary>An upper bound with its unit, rounded up.</summary>
    public static string AtMost(Length bound, UnitSystem system) =>
        $"{Outward(bound, system, decimal.Ceiling)} {Unit(system)}";

    /// <summary>A limit as the label of a tick.</summary>
    public static string Limit(Length limit, UnitSystem system) => Figure(limit, system).Replace('-', '−');

    /// <summary>A distance to move something by: no finer than anyone can set it, 0.01 mm or 0.0005 in.</summary>
    public static string Settable(Length length, UnitSystem system)
    {
        var quantum = system == UnitSystem.Inch ? 0.0005m * Inch : 0.01m;
        return Of(Length.FromMillimetres(Math.Round(length.Millimetres / quantum) * quantum), system);
    }

    /// <summary>
    /// The signed distance to the limit, to the decimal place of the uncertainty of what is known; finer where nothing would be
    /// left of it. Nothing where there is none.
    /// </summary>
    public static string Margin(Comparison comparison, UnitSystem system)
    {
        if (comparison.Margin is not { } margin)
        {
            return "";
        }

        var figure = comparison.Uncertainty is { } doubt
            ? UncertaintyPrint.ValueFigure(margin, doubt, system, Finer(comparison, system))
            : Figure(margin, system);
        return (figure.AsSpan().ContainsAnyInRange('1', '9') ? figure : Figure(margin, system)).Replace(
            '-',
            '−'
        );
    }

    /// <summary>What is known at a place: value with uncertainty, or an interval.</summary>
    public static string Known(Comparison comparison, UnitSystem system)
    {
        // A gap below nothing is no length.
        if (comparison is { IsAtEnd: true, Quantity: MeasuredQuantity.Clearance, Value.Millimetres: < 0 })
        {
            return "touching by the line, or the line does not hold";
        }

        if (comparison.Value is { } value)
        {
            return comparison.Uncertainty is { } doubt
                ? Beside(value, doubt, system, Finer(comparison, system))
                : Of(value, system);
        }
        return (comparison.KnownLower, comparison.KnownUpper) switch
        {
            ({ } lower, { } upper) =>
                $"{Outward(lower, system, decimal.Floor)} to {Outward(upper, system, decimal.Ceiling)} {Unit(system)}",
            ({ } lower, null) => $"at least {Outward(lower, system, decimal.Floor)} {Unit(system)}",
            (null, { } upper) => $"less than {Outward(upper, system, decimal.Ceiling)} {Unit(system)}",
            _ => "not known",
        };
    }

    /// <summary>
    /// What was written down and by how much it was corrected for the zero check of its gauge; null where nothing was.
    /// </summary>
    public static string? Corrected(Comparison comparison, UnitSystem system) =>
        comparison is { AsRead: { } read, Value: { } value }
            ? $"read {Of(read, system)}, corrected by {(value > read ? "+" : "")}{Of(value - read, system)} of the zero check"
            : null;

    /// <summary>The same as short as it can be told, without unit and uncertainty; empty where nothing is known.</summary>
    public static string Short(Comparison comparison, UnitSystem system) =>
        comparison.Value is { } value
            ? comparison.Uncertainty is { } doubt
                ? UncertaintyPrint.ValueFigure(value, doubt, system)
                : Figure(value, system)
            : (comparison.KnownLower, comparison.KnownUpper) switch
            {
                ({ } lower, { } upper) =>
                    $"{Outward(lower, system, decimal.Floor)}–{Outward(upper, system, decimal.Ceiling)}",
                ({ } lower, null) => $"≥ {Outward(lower, system, decimal.Floor)}",
                (null, { } upper) => $"< {Outward(upper, system, decimal.Ceiling)}",
                _ => "",
            };

    public static string Limits(Comparison comparison, UnitSystem system) =>
        (comparison.LowerLimit, comparison.UpperLimit) switch
        {
            ({ } lower, { } upper) => $"{Figure(lower, system)} to {Of(upper, system)}",
            ({ } lower, null) => $"≥ {Of(lower, system)}",
            (null, { } upper) => $"≤ {Of(upper, system)}",
            _ => "",
        };

    private static string Beside(Length value, Length doubt, UnitSystem system, int finer) =>
        $"{UncertaintyPrint.ValueFigure(value, doubt, system, finer)} ± {UncertaintyPrint.Figure(doubt, system, finer)} {Unit(system)}";

    /// <summary>
    /// How many more digits show which of margin and uncertainty is the larger, where the verdict hangs on that and two digits
    /// would print a tie or the other way round.
    /// </summary>
    private static int Finer(Comparison comparison, UnitSystem system)
    {
        var guard =
            comparison.AcceptLower - comparison.LowerLimit ?? comparison.UpperLimit - comparison.AcceptUpper;
        if (comparison is not { Margin.Abs: var margin, Uncertainty: { } doubt } || guard != doubt)
        {
            return 0;
        }

        var isSo = margin.CompareTo(doubt);
        var finer = 0;
        while (finer < MostFiner && Shown(finer) != Math.Sign(isSo))
        {
            finer++;
        }

        return finer;

        int Shown(int digits) =>
            Math.Sign(
                Number(UncertaintyPrint.ValueFigure(margin, doubt, system, digits))
                    .CompareTo(Number(UncertaintyPrint.Figure(doubt, system, digits)))
            );
    }

    private static decimal Number(string figure) => decimal.Parse(figure, CultureInfo.InvariantCulture);

    private static int Decimals(UnitSystem system) =>
        system == UnitSystem.Inch ? InchDecimals : MetricDecimals;

    /// <summary>The end of an interval, rounded so that the interval printed holds the one that is known.</summary>
    private static string Outward(Length end, UnitSystem system, Func<decimal, decimal> rounded)
    {
        var quantum =
            (system == UnitSystem.Inch ? Inch : 1m) / (system == UnitSystem.Inch ? 100_000m : 10_000m);
        return Figure(Length.FromMillimetres(rounded(end.Millimetres / quantum) * quantum), system);
    }

    private static string Figure(Length length, UnitSystem system, int decimals)
    {
        var figure = Math.Round(length.Millimetres / (system == UnitSystem.Inch ? Inch : 1m), decimals);
        var least = system == UnitSystem.Inch ? "0.000" : "0.00";
        var format = least + new string('#', Math.Max(0, decimals - (least.Length - 2)));
        return (figure == 0m ? 0m : figure).ToString(format, CultureInfo.InvariantCulture);
    }
}
