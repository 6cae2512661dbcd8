using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Rules.Model;

namespace ServiceRules.Reporting.Reports;

/// <summary>A comparison, what kind of figure it is, and where along the width it stands.</summary>
/// <param name="Finding">The finding that it belongs to.</param>
/// <param name="Comparison">The comparison.</param>
/// <param name="Kind">A quantity itself, or what was worked out of several readings.</param>
/// <param name="Along">Distance from the left end; null when it is of the unit as a whole.</param>
internal sealed record ComparedPlace(Finding Finding, Comparison Comparison, FigureKind Kind, Length? Along)
{
    /// <summary>It was worked out for a blade end, not read there.</summary>
    public bool IsEnd => Comparison.Place is "left end" or "right end";

    /// <summary>The place in words, empty for the unit as a whole.</summary>
    public static string Name(Comparison comparison) => comparison.Place == "across" ? "" : comparison.Place;

    public static Length? Position(string place, LimitSheet? sheet)
    {
        if (place == "left end")
        {
            return Length.Zero;
        }
        if (place == "right end")
        {
            return sheet?.Width.Governing.Value;
        }
        var station = place.Split(',')[0];
        return PrintedLength.Parse(station).TryGet(out var print, out _) ? print.Value : null;
    }
}
