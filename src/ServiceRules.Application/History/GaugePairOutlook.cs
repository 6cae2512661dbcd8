using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.History;

/// <summary>Two gauges that read the same places with nothing turned in between.</summary>
/// <param name="Quantity">What.</param>
/// <param name="First">One gauge.</param>
/// <param name="Second">The other.</param>
/// <param name="Pairs">How often.</param>
/// <param name="Difference">Mean of the first less the second.</param>
/// <param name="WorstEn">Largest normalised error: above 1 the two readings do not agree within their uncertainties.</param>
/// <param name="Disagreeing">How often they did not agree.</param>
/// <param name="DisagreeingOn">The units on which they did not.</param>
/// <param name="LastOn">The day of the last pair.</param>
/// <param name="System">The units of the readings.</param>
public sealed record GaugePairOutlook(
    MeasuredQuantity Quantity,
    Id<Instrument> First,
    Id<Instrument> Second,
    int Pairs,
    Length Difference,
    decimal WorstEn,
    int Disagreeing,
    ImmutableArray<Id<UnitWork>> DisagreeingOn,
    DateOnly LastOn,
    UnitSystem System
)
{
    /// <summary>They part on several units: it is a gauge. On one only, it may be the unit that moved.</summary>
    public bool IsTheGauge => DisagreeingOn.Length > 1;
}
