using ServiceRules.Domain;
using ServiceRules.Domain.Measurement;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.History;

/// <summary>A value that a unit was left at, as one rule compared it with its limits.</summary>
/// <param name="Rule">The rule.</param>
/// <param name="Sheet">The kind of unit.</param>
/// <param name="Quantity">The quantity.</param>
/// <param name="Record">The record.</param>
/// <param name="Unit">The unit.</param>
/// <param name="Day">The day.</param>
/// <param name="Value">The value; less the middle of its limits where there are two.</param>
/// <param name="Lower">Lower limit, likewise.</param>
/// <param name="Upper">Upper limit, likewise.</param>
/// <param name="AcceptLower">Where acceptance begins, likewise.</param>
/// <param name="AcceptUpper">Where acceptance ends, likewise.</param>
/// <param name="Uncertainty">Standard uncertainty of the value.</param>
/// <param name="IsMiddled">Whether the middle of its limits was taken off.</param>
/// <param name="IsAimed">Whether a target stands between its limits.</param>
/// <param name="Place">Where.</param>
/// <param name="System">The units that it was read in.</param>
internal sealed record ValueLeft(
    string Rule,
    string Sheet,
    MeasuredQuantity Quantity,
    Id<ServiceRecord> Record,
    Id<UnitWork> Unit,
    DateOnly Day,
    Length Value,
    Length? Lower,
    Length? Upper,
    Length? AcceptLower,
    Length? AcceptUpper,
    StandardUncertainty Uncertainty,
    bool IsMiddled,
    bool IsAimed,
    string Place,
    UnitSystem System
);
