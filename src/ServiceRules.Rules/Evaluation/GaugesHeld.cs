using System.Collections.Immutable;
using ServiceRules.Domain;
using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Site;

namespace ServiceRules.Rules.Evaluation;

/// <summary>
/// The instruments of a record with what the site's register says of each put beside it, and of a piece of fixed size what it was
/// tried as.
/// </summary>
public static class GaugesHeld
{
    /// <summary>The instruments, in the order of the record.</summary>
    /// <param name="record">The record.</param>
    /// <param name="context">Its frozen context; one that says nothing of gauges leaves each to its own word.</param>
    public static ImmutableArray<Instrument> Of(ServiceRecord record, AssessmentContext context)
    {
        ArgumentNullException.ThrowIfNull(record);
        ArgumentNullException.ThrowIfNull(context);
        return
        [
            .. record
                .Instruments.Select(gauge =>
                    gauge.Kind is InstrumentKind.FixedSizePiece
                        ? gauge with
                        {
                            SizesTried = SizesTried(record, gauge.Id),
                        }
                        : gauge
                )
                .Select(gauge =>
                    context.Instruments is not { } register
                        ? gauge
                        : gauge with
                        {
                            Register = new(register.FirstOrDefault(known => known.Id == gauge.Id)),
                        }
                ),
        ];
    }

    private static ImmutableArray<PrintedLength> SizesTried(ServiceRecord record, Id<Instrument> piece) =>
        [
            .. record
                .Units.SelectMany(unit => unit.Entries.OfType<Reading>())
                .Where(reading => reading.Instrument == piece && reading.Withdrawn is null)
                .Select(reading => reading.Observed)
                .OfType<Observation.FeelerTest>()
                .SelectMany(test => test.Feelers)
                .DistinctBy(size => size.Value)
                .OrderBy(size => size.Value),
        ];
}
