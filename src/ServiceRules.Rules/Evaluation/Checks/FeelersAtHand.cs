using ServiceRules.Domain.Quantities;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>
/// Thicknesses that somebody can take from a set: in halves of a thousandth of an inch or in hundredths of a millimetre (common
/// practice, no source), and whatever was tried at the place. A thickness that no set holds is no advice.
/// </summary>
internal static class FeelersAtHand
{
    /// <summary>The thinnest that is at least so thick.</summary>
    public static Length AtLeast(Length thickness, PlaceKnown place) =>
        Nearest(thickness, place, decimal.Ceiling, each => each >= thickness, thinnest: true);

    /// <summary>The thinnest that is thicker.</summary>
    public static Length Above(Length thickness, PlaceKnown place) =>
        Nearest(
            thickness,
            place,
            steps => decimal.Floor(steps) + 1,
            each => each > thickness,
            thinnest: true
        );

    /// <summary>The thickest that is at most so thick; none where that is nothing.</summary>
    public static Length? AtMost(Length thickness, PlaceKnown place) =>
        Nearest(thickness, place, decimal.Floor, each => each <= thickness, thinnest: false) is var found
        && found > Length.Zero
            ? found
            : null;

    private static Length Nearest(
        Length thickness,
        PlaceKnown place,
        Func<decimal, decimal> rounded,
        Func<Length, bool> fits,
        bool thinnest
    )
    {
        var step =
            place.System is UnitSystem.Inch ? Length.FromInches(0.0005m) : Length.FromMillimetres(0.01m);
        var usual = step * rounded(thickness.Millimetres / step.Millimetres);
        var fitting = place
            .Feelers.Where(feeler => feeler.Stacked.IsEmpty)
            .Select(feeler => feeler.Thickness)
            .Where(fits)
            .Append(usual);
        return thinnest ? fitting.Min() : fitting.Max();
    }
}
