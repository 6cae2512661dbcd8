using ServiceRules.Domain;
using ServiceRules.Domain.Geometry;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Rules.Evaluation.Checks;

/// <summary>One side of a difference: what is known there, with what, in which units.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="Knowledge">What is known.</param>
/// <param name="System">The units of the reading.</param>
/// <param name="Doubt">Why it cannot prove anything, or None.</param>
/// <param name="Gauge">The one gauge, if there is one.</param>
/// <param name="Shared">What it shares with other readings of that gauge.</param>
internal sealed record DifferenceSide(
    string Name,
    Knowledge Knowledge,
    UnitSystem System,
    FindingReason Doubt,
    Id<Instrument>? Gauge,
    StandardUncertainty Shared
)
{
    public static DifferenceSide Of(string name, PlaceKnown place) =>
        new(name, place.Knowledge!, place.System, place.Doubt, place.Gauge, place.Shared);

    public static DifferenceSide Of(string name, KnownLine line, Knowledge at) =>
        new(name, at, line.System, line.Doubt, line.Gauge, line.Shared);

    /// <summary>
    /// How much this side stands above the other, as something to be judged. What one gauge shares drops out.
    /// </summary>
    public Asked Above(DifferenceSide other, MeasuredQuantity quantity, string place) =>
        new(
            quantity,
            place,
            $"{Name} above {other.Name} by",
            KnownDifference.Between(
                Knowledge,
                other.Knowledge,
                Gauge is not null && Gauge == other.Gauge ? Shared : StandardUncertainty.Zero
            ),
            System,
            Doubt is FindingReason.GaugeUnfit || other.Doubt is FindingReason.None ? Doubt : other.Doubt,
            null
        );

    /// <summary>Which of two sides is said to stand above the other: the one whose middle is larger.</summary>
    public bool IsAbove(DifferenceSide other) =>
        LimitRemedy.Best(Knowledge) > LimitRemedy.Best(other.Knowledge);
}
