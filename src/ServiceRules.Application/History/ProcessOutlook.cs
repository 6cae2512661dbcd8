using System.Collections.Immutable;
using ServiceRules.Domain.Conformity;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.History;

/// <summary>What the shop leaves of one quantity on one kind of unit, under the rules in force.</summary>
/// <param name="Rules">The rules that compare it with these limits.</param>
/// <param name="Sheet">The kind of unit.</param>
/// <param name="Quantity">The quantity.</param>
/// <param name="Readings">How many values.</param>
/// <param name="IsFromMiddle">The values are counted from the middle of their limits; else from zero.</param>
/// <param name="Mean">Their mean.</param>
/// <param name="Lower">Lower limit, counted alike.</param>
/// <param name="Upper">Upper limit, counted alike.</param>
/// <param name="Process">The spread taken from them; null with fewer than ten or all alike.</param>
/// <param name="Risk">What that makes of the rule in force; null likewise.</param>
/// <param name="System">The units of the readings.</param>
public sealed record ProcessOutlook(
    ImmutableArray<string> Rules,
    string Sheet,
    MeasuredQuantity Quantity,
    int Readings,
    bool IsFromMiddle,
    Length Mean,
    Length? Lower,
    Length? Upper,
    ProcessSpread? Process,
    GlobalRisk? Risk,
    UnitSystem System
);
