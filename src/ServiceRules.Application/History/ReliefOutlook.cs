using ServiceRules.Domain.Quantities;

namespace ServiceRules.Application.History;

/// <summary>When the relief behind the lands is due, from the diameter lost since the land was read. Derived geometry.</summary>
/// <param name="ReadOn">When the land was read.</param>
/// <param name="LandThen">What it was.</param>
/// <param name="LossSince">Diameter lost to the stone since.</param>
/// <param name="LandNow">What it should be now.</param>
/// <param name="Limit">The sheet's greatest land.</param>
/// <param name="DiameterLeft">Diameter that can still be ground off; negative: it is due.</param>
/// <param name="Relief">The relief angle of the sheet.</param>
/// <param name="System">The units that the land was read in.</param>
public sealed record ReliefOutlook(
    DateOnly ReadOn,
    Length LandThen,
    Length LossSince,
    Length LandNow,
    Length Limit,
    Length DiameterLeft,
    Angle Relief,
    UnitSystem System
);
