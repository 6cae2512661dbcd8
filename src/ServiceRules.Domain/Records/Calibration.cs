using ServiceRules.Domain.Quantities;

namespace ServiceRules.Domain.Records;

/// <summary>A calibration.</summary>
/// <param name="Date">When it was done.</param>
/// <param name="Due">When the next is due.</param>
/// <param name="ExpandedUncertainty">Expanded uncertainty U on its certificate.</param>
/// <param name="CoverageFactor">Coverage factor k of U, greater than 0 and at most 5.</param>
public sealed record Calibration(
    DateOnly Date,
    DateOnly Due,
    PrintedLength ExpandedUncertainty,
    decimal CoverageFactor
);
