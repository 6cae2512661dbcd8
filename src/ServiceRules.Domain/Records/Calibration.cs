using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Records;

/// <summary>A calibration.</summary>
/// <param name="Date">When it was done.</param>
/// <param name="Due">When the next is due.</param>
/// <param name="ExpandedUncertainty">Expanded uncertainty U on its certificate.</param>
/// <param name="CoverageFactor">Coverage factor k of U, greater than 0.</param>
public sealed record Calibration(
    DateOnly Date,
    DateOnly Due,
    PrintedLength ExpandedUncertainty,
    decimal CoverageFactor
)
{
    // Intervals of one to three years are usual, five for setting pieces (common practice, no source).
    private const int MostYears = 5;

    /// <summary>
    /// Until when it is believed: until it is due, and for no more than five years, since no gauge in use is trusted for longer
    /// (common practice, no source).
    /// </summary>
    public DateOnly HoldsUntil => IsTooLong ? Date.AddYears(MostYears) : Due;

    /// <summary>Whether it claims to hold for longer than any certificate is believed.</summary>
    public bool IsTooLong =>
        Date.Year <= DateOnly.MaxValue.Year - MostYears && Due > Date.AddYears(MostYears);

    /// <summary>The level of confidence, where the certificate states that instead of k.</summary>
    public CoverageLevel? Level { get; private init; }

    /// <summary>Degrees of freedom behind U, where the certificate states them.</summary>
    public int? DegreesOfFreedom { get; init; }

    /// <summary>Of a certificate that states a level of confidence: k is the quantile for it.</summary>
    /// <param name="date">When it was done.</param>
    /// <param name="due">When the next is due.</param>
    /// <param name="expandedUncertainty">U on its certificate.</param>
    /// <param name="level">The level it states.</param>
    /// <param name="degreesOfFreedom">The degrees of freedom it states, if any; else k is that of the normal distribution.</param>
    public static Calibration AtLevel(
        DateOnly date,
        DateOnly due,
        PrintedLength expandedUncertainty,
        CoverageLevel level,
        int? degreesOfFreedom
    ) =>
        new(date, due, expandedUncertainty, Measurement.CoverageFactor.At(level, Known(degreesOfFreedom)))
        {
            Level = level,
            DegreesOfFreedom = degreesOfFreedom,
        };

    /// <summary>What the calibration contributes to the uncertainty of every reading.</summary>
    public UncertaintyContribution Contribution =>
        UncertaintyContribution.Calibration(
            ExpandedUncertainty.Value.Abs,
            CoverageFactor,
            Known(DegreesOfFreedom)
        );

    private static DegreesOfFreedom Known(int? degreesOfFreedom) =>
        degreesOfFreedom is { } finite
            ? Measurement.DegreesOfFreedom.Of(finite)
            : Measurement.DegreesOfFreedom.Infinite;
}
