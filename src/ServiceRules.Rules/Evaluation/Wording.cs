using System.Globalization;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Evaluation;

/// <summary>The words and figures of statements: what technicians say, in the units they read.</summary>
internal static class Wording
{
    /// <summary>A length in a system of units, to 0.0001 mm or 0.00001 in.</summary>
    public static string Of(Length length, UnitSystem system) =>
        system is UnitSystem.Inch
            ? Figure(Math.Round(length.Millimetres / 25.4m, 5), "0.000##", "in")
            : Figure(Math.Round(length.Millimetres, 4), "0.00##", "mm");

    /// <summary>The least that something may be: rounded up.</summary>
    public static string AtLeast(Length length, UnitSystem system) => Of(length, system, decimal.Ceiling);

    /// <summary>The most that something may be: rounded down.</summary>
    public static string AtMost(Length length, UnitSystem system) => Of(length, system, decimal.Floor);

    /// <summary>The same, each length rounded the way that is asked: the ends of an interval go outward.</summary>
    private static string Of(Length length, UnitSystem system, Func<decimal, decimal> rounded) =>
        system is UnitSystem.Inch
            ? Figure(rounded(length.Millimetres / 25.4m * 100_000m) / 100_000m, "0.000##", "in")
            : Figure(rounded(length.Millimetres * 10_000m) / 10_000m, "0.00##", "mm");

    /// <summary>
    /// A difference to the decimal place of the uncertainty of what it was taken from; finer where nothing would be left of it.
    /// </summary>
    public static string Beside(Length difference, Length? uncertainty, UnitSystem system)
    {
        if (uncertainty is not { } doubt)
        {
            return Of(difference, system);
        }

        var figure = UncertaintyPrint.ValueFigure(difference, doubt, system);
        return figure.AsSpan().ContainsAnyInRange('1', '9')
            ? $"{figure} {(system is UnitSystem.Inch ? "in" : "mm")}"
            : Of(difference, system);
    }

    /// <summary>What is known, as it is said at the bench.</summary>
    public static string Of(Knowledge knowledge, UnitSystem system) =>
        knowledge switch
        {
            MeasuredValue measured => UncertaintyPrint.Beside(
                measured.Value,
                measured.Expanded.Value,
                system
            ),
            LengthInterval { Lower: { } lower, Upper: { } upper } =>
                $"between {Of(lower.Value, system, decimal.Floor)} and {Of(upper.Value, system, decimal.Ceiling)}",
            LengthInterval { Lower: { } lower } => $"at least {Of(lower.Value, system, decimal.Floor)}",
            LengthInterval { Upper: { } upper } => $"less than {Of(upper.Value, system, decimal.Ceiling)}",
            _ => "not known",
        };

    public static string Of(MeasuredQuantity quantity) =>
        quantity switch
        {
            MeasuredQuantity.Clearance => "clearance",
            MeasuredQuantity.HeightOfCut => "height of cut",
            MeasuredQuantity.FrontRoller => "front roller",
            MeasuredQuantity.ShieldGap => "shield gap",
            MeasuredQuantity.BrushGap => "brush gap",
            MeasuredQuantity.GroomerHeight => "groomer height",
            MeasuredQuantity.ReelDiameter => "reel diameter",
            MeasuredQuantity.BedknifeLip => "bedknife lip",
            MeasuredQuantity.LandWidth => "land width",
            MeasuredQuantity.BearingPlay => "bearing play",
            MeasuredQuantity.Attitude => "bedknife attitude",
            MeasuredQuantity.Edge => "edge",
            MeasuredQuantity.Guards => "guards",
            MeasuredQuantity.FrontRollerOnPlate => "front roller on the plate",
            MeasuredQuantity.RearRollerOnPlate => "rear roller on the plate",
            _ => throw new ArgumentOutOfRangeException(nameof(quantity), quantity, "not a quantity"),
        };

    public static string Of(AdjusterKind adjuster) =>
        adjuster switch
        {
            AdjusterKind.Clearance => "clearance",
            AdjusterKind.Height => "height of cut",
            AdjusterKind.HeightRange => "height range",
            AdjusterKind.FrontRoller => "front roller",
            AdjusterKind.BedknifePosition => "bedknife position",
            AdjusterKind.Groomer => "groomer",
            AdjusterKind.Brush => "brush",
            AdjusterKind.Shield => "shield",
            AdjusterKind.Bearings => "bearings",
            _ => throw new ArgumentOutOfRangeException(nameof(adjuster), adjuster, "not an adjuster"),
        };

    public static string Of(ContactState contact) =>
        contact switch
        {
            ContactState.None => "no contact",
            ContactState.Light => "light contact",
            ContactState.Partial => "contact over part of the width",
            ContactState.Heavy => "heavy contact",
            _ => throw new ArgumentOutOfRangeException(nameof(contact), contact, "not a contact"),
        };

    /// <summary>A list as it is said: a, b and c.</summary>
    public static string Listed(IReadOnlyList<string> items) =>
        items.Count switch
        {
            0 => string.Empty,
            1 => items[0],
            _ => string.Join(", ", items.Take(items.Count - 1)) + " and " + items[^1],
        };

    /// <summary>A sentence's first letter in upper case.</summary>
    public static string Sentence(string text) => SentenceCase.Begin(text);

    private static string Figure(decimal figure, string format, string unit) =>
        (figure == 0m ? 0m : figure).ToString(format, CultureInfo.InvariantCulture) + " " + unit;
}
