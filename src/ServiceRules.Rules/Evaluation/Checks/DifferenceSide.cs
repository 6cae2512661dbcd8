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
/// <param name="Shared">What it shares with other readings of its one gauge, if there is one.</param>
internal sealed record DifferenceSide(
    string Name,
    Knowledge Knowledge,
    UnitSystem System,
    FindingReason Doubt,
    SharedError? Shared
)
{
    public static DifferenceSide Of(string name, PlaceKnown place) =>
        new(name, place.Knowledge!, place.System, place.Doubt, place.Shared)
        {
            Grown = GrownDoubt.BySteps(place.AsRead),
            IsReadInBoth = place.IsReadInBoth,
        };

    public static DifferenceSide Of(string name, KnownLine line, Knowledge at) =>
        new(name, at, line.System, line.Doubt, line.Shared) { IsReadInBoth = line.IsReadInBoth };

    public static DifferenceSide Of(string name, KnownLine line, Func<KnownLine, Knowledge> value) =>
        Of(name, line, value(line)) with
        {
            Grown = GrownDoubt.OfLine(line, value),
        };

    /// <summary>What of its doubt is not the gauge's, if any.</summary>
    public GrownDoubt? Grown { get; init; }

    /// <summary>Whether it rests on readings of both unit systems.</summary>
    public bool IsReadInBoth { get; init; }

    /// <summary>
    /// How much this side stands above the other, as something to be judged. What one gauge shares drops out.
    /// </summary>
    public Asked Above(DifferenceSide other, MeasuredQuantity quantity, string place) =>
        new(
            quantity,
            place,
            $"{Name} above {other.Name} by",
            KnownDifference.Between(Knowledge, other.Knowledge, Shared, other.Shared),
            System,
            Doubt is FindingReason.UncertaintyUnknown || other.Doubt is FindingReason.None
                ? Doubt
                : other.Doubt,
            null
        )
        {
            Grown = GrownAbove(other),
            SaidOtherWay = $"{other.Name} above {Name} by",
            Where = $"{Name} against {other.Name}",
            IsReadInBoth = IsReadInBoth || other.IsReadInBoth || System != other.System,
        };

    private Knowledge ByGauge => (Knowledge?)Grown?.ByGauge ?? Knowledge;

    private GrownDoubt? GrownAbove(DifferenceSide other) =>
        (Grown ?? other.Grown) is { } grown
        && KnownDifference.Between(ByGauge, other.ByGauge, Shared, other.Shared) is MeasuredValue byGauges
            ? grown with
            {
                ByGauge = byGauges,
            }
            : null;

    /// <summary>Which of two sides is said to stand above the other: the one whose middle is larger, or which alone may be so by any amount.</summary>
    public bool IsAbove(DifferenceSide other) =>
        EitherWay.IsBelow(KnownDifference.Between(other.Knowledge, Knowledge, other.Shared, Shared));
}
