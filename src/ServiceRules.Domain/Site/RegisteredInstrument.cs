using System.Collections.Immutable;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Domain.Site;

/// <summary>
/// A gauge that the site owns, so that limits can be held against what can be measured before anybody measures, and so
/// that a job's own word about a gauge is worth no more than what the site knows of it.
/// </summary>
/// <param name="Id">The gauge.</param>
/// <param name="Kind">Its kind.</param>
/// <param name="Resolution">Smallest step it shows.</param>
/// <param name="ExpandedUncertainty">
/// U of one reading with a coverage factor of 2: calibration, zero and repeatability together, without the step it shows.
/// </param>
/// <param name="Measures">The quantities that people read with it.</param>
public sealed record RegisteredInstrument(
    Id<Instrument> Id,
    InstrumentKind Kind,
    PrintedLength Resolution,
    PrintedLength ExpandedUncertainty,
    ImmutableArray<MeasuredQuantity> Measures
)
{
    private const decimal CoverageFactor = 2m;

    /// <summary>
    /// Standard uncertainty of one reading by the step that it shows alone: the least that is left in a difference, where
    /// calibration and zero drop out.
    /// </summary>
    public StandardUncertainty OfItsStep =>
        UncertaintyBudget
            .Of(UncertaintyContribution.Resolution(GaugeStep.Believed(Resolution, Kind)))
            .Combined;

    /// <summary>What it adds to the uncertainty of one reading, without the step that it shows.</summary>
    public UncertaintyContribution Contribution =>
        UncertaintyContribution.Calibration(ExpandedUncertainty.Value.Abs, CoverageFactor);

    /// <summary>Standard uncertainty of one reading, the step that it shows included.</summary>
    public StandardUncertainty OfOneReading =>
        UncertaintyBudget
            .Of(Contribution, UncertaintyContribution.Resolution(GaugeStep.Believed(Resolution, Kind)))
            .Combined;
}
