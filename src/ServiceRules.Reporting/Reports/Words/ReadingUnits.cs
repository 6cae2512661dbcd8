using ServiceRules.Domain.Quantities;
using ServiceRules.Domain.Records;
using ServiceRules.Domain.Verdicts;

namespace ServiceRules.Reporting.Reports.Words;

/// <summary>Answers in the units in which the person read: inches to who read inches.</summary>
public static class ReadingUnits
{
    /// <summary>The units in which the readings behind a finding were taken.</summary>
    public static UnitSystem Of(ServiceRecord record, Finding finding)
    {
        var unit =
            record.Units.FirstOrDefault(one =>
                finding.Subject is Subject.Unit subject && subject.Id == one.Id
            ) ?? record.Units[0];
        return Of(
            unit,
            finding.Comparisons.IsEmpty ? MeasuredQuantity.Clearance : finding.Comparisons[0].Quantity
        );
    }

    /// <summary>The units in which a quantity was read on a unit; metric when nothing was read.</summary>
    public static UnitSystem Of(UnitWork unit, MeasuredQuantity quantity)
    {
        var readings = unit.Entries.OfType<Reading>().ToList();
        return Most(readings.Where(reading => reading.Quantity == quantity))
            ?? Most(readings)
            ?? UnitSystem.Metric;
    }

    private static UnitSystem? Most(IEnumerable<Reading> readings) =>
        readings
            .Select(SystemOf)
            .OfType<UnitSystem>()
            .GroupBy(system => system)
            .OrderByDescending(group => group.Count())
            .Select(group => (UnitSystem?)group.Key)
            .FirstOrDefault();

    private static UnitSystem? SystemOf(Reading reading) =>
        reading.Observed switch
        {
            Observation.Measured measured => measured.Value.System,
            Observation.FeelerTest { Feelers: [var first, ..] } => first.System,
            _ => null,
        };
}
