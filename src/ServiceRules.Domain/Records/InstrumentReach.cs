using System.Collections.Immutable;

namespace ServiceRules.Domain.Records;

/// <summary>
/// What each kind of instrument can read on a unit (common practice, no source). A gauge held to what it cannot reach proves nothing
/// of it, however fine the step it states.
/// </summary>
public static class InstrumentReach
{
    private static readonly ImmutableArray<InstrumentKind> OfHeights =
    [
        InstrumentKind.HeightGauge,
        InstrumentKind.DialGauge,
        InstrumentKind.DepthGauge,
        InstrumentKind.Calliper,
    ];

    private static readonly ImmutableArray<InstrumentKind> OfWideGaps =
    [
        InstrumentKind.FeelerGauge,
        InstrumentKind.Calliper,
    ];

    private static readonly ImmutableArray<InstrumentKind> OnThePlate =
    [
        InstrumentKind.FeelerGauge,
        InstrumentKind.DialGauge,
    ];

    private static readonly ImmutableArray<InstrumentKind> OfTries =
    [
        InstrumentKind.FeelerGauge,
        InstrumentKind.FixedSizePiece,
    ];

    /// <summary>The kinds that can observe a quantity so; empty: an observation that asks for no instrument.</summary>
    /// <param name="quantity">What is read.</param>
    /// <param name="observed">How it was observed.</param>
    public static ImmutableArray<InstrumentKind> KindsFor(MeasuredQuantity quantity, Observation observed) =>
        observed switch
        {
            Observation.Measured => OfLengths(quantity),
            // A feeler tells a gap; a block or a template made to one size may stand for any length.
            Observation.FeelerTest => OfLengths(quantity).Contains(InstrumentKind.FeelerGauge)
                ? OfTries
                : [InstrumentKind.FixedSizePiece],
            Observation.MeasuredAngle => [InstrumentKind.AngleGauge],
            Observation.Paper => [InstrumentKind.PaperStrip],
            _ => [],
        };

    /// <summary>Whether a kind can observe a quantity so.</summary>
    /// <param name="kind">The kind.</param>
    /// <param name="quantity">What is read.</param>
    /// <param name="observed">How it was observed.</param>
    public static bool Reads(InstrumentKind kind, MeasuredQuantity quantity, Observation observed) =>
        KindsFor(quantity, observed) is var kinds && (kinds.IsEmpty || kinds.Contains(kind));

    /// <summary>The kinds that read a length of the quantity: a piece of fixed size passes or not, and shows none.</summary>
    /// <param name="quantity">The quantity.</param>
    public static ImmutableArray<InstrumentKind> OfLengths(MeasuredQuantity quantity) =>
        quantity switch
        {
            MeasuredQuantity.HeightOfCut or MeasuredQuantity.GroomerHeight or MeasuredQuantity.FrontRoller =>
                OfHeights,
            // A dial that stands at zero where the blade just touches shows how far the bedknife went from there.
            MeasuredQuantity.Clearance => [InstrumentKind.FeelerGauge, InstrumentKind.DialGauge],
            MeasuredQuantity.ShieldGap or MeasuredQuantity.BrushGap => OfWideGaps,
            MeasuredQuantity.FrontRollerOnPlate or MeasuredQuantity.RearRollerOnPlate => OnThePlate,
            MeasuredQuantity.BearingPlay => OnThePlate,
            MeasuredQuantity.ReelDiameter =>
            [
                InstrumentKind.DiameterTape,
                InstrumentKind.Calliper,
                InstrumentKind.Micrometer,
                InstrumentKind.DialGauge,
            ],
            MeasuredQuantity.BedknifeLip =>
            [
                InstrumentKind.Calliper,
                InstrumentKind.DepthGauge,
                InstrumentKind.Micrometer,
                InstrumentKind.DialGauge,
            ],
            MeasuredQuantity.LandWidth => [InstrumentKind.Calliper, InstrumentKind.Micrometer],
            _ => [],
        };
}
