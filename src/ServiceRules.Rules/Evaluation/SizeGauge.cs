using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;

namespace ServiceRules.Rules.Evaluation;

/// <summary>
/// The gauge behind a size that a grinding entry states without naming one: that of the nearest reading of the same
/// quantity on the unit.
/// </summary>
public static class SizeGauge
{
    /// <summary>The gauge, or null when the entry states no size or no reading of that quantity names a gauge.</summary>
    /// <param name="entries">The bench log of the unit.</param>
    /// <param name="index">Which of them is the grinding entry.</param>
    public static Id<Instrument>? Of(ImmutableArray<BenchEntry> entries, int index) =>
        entries[index] is Grinding grinding
            ? entries
                .Select((entry, at) => (Reading: entry as Reading, Distance: Math.Abs(at - index)))
                .Where(item =>
                    item.Reading?.Quantity == grinding.States && item.Reading.Instrument is not null
                )
                .OrderBy(item => item.Distance)
                .Select(item => item.Reading!.Instrument)
                .FirstOrDefault()
            : null;
}
