using ServiceRules.Domain.Records;

namespace ServiceRules.Oracle;

/// <summary>Which blades the length readings of a quantity name.</summary>
internal static class Blades
{
    public static IReadOnlyCollection<int> Named(UnitWork unit, MeasuredQuantity quantity) =>
        [.. Lengths(unit, quantity).Where(r => r.Blade is not null).Select(r => r.Blade!.Value).Distinct()];

    public static bool AllNamed(UnitWork unit, MeasuredQuantity quantity) =>
        Lengths(unit, quantity).All(r => r.Blade is not null);

    private static IEnumerable<Reading> Lengths(UnitWork unit, MeasuredQuantity quantity) =>
        unit
            .Entries.OfType<Reading>()
            .Where(r =>
                r.Quantity == quantity && r.Observed is Observation.Measured or Observation.FeelerTest
            );
}
