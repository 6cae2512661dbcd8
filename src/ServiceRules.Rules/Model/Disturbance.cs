using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Model;

/// <summary>What one adjuster does to another quantity.</summary>
/// <param name="Quantity">The quantity disturbed.</param>
/// <param name="ShiftPerStep">
/// Largest shift either way by one step; a reading is carried with that much more doubt. Absent: any turn makes
/// readings stale.
/// </param>
/// <param name="StaleAfterSteps">More steps than this make readings stale; absent with a shift: never by steps alone.</param>
public sealed record Disturbance(MeasuredQuantity Quantity, DualPrint? ShiftPerStep, int? StaleAfterSteps);
