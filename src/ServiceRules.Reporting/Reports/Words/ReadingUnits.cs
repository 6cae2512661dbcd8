using System.Globalization;
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
        if (finding.Comparisons is [{ ToldIn: { } told }, ..])
        {
            return told;
        }

        var unit =
            record.Units.FirstOrDefault(one =>
                finding.Subject is Subject.Unit subject && subject.Id == one.Id
            ) ?? record.Units[0];
        var quantity = finding.Comparisons.IsEmpty
            ? MeasuredQuantity.Clearance
            : finding.Comparisons[0].Quantity;
        // What the statement rests on, in whose units it is told, and not what was read of it before something was turned.
        return Most(
                finding
                    .Evidence.Select(pointer => EntryAt(record, pointer))
                    .OfType<Reading>()
                    .Where(reading => reading.Quantity == quantity)
            ) ?? Of(unit, quantity);
    }

    private static BenchEntry? EntryAt(ServiceRecord record, string pointer) =>
        pointer.Split('/') is ["", "units", var unit, "entries", var entry, ..]
        && int.TryParse(unit, NumberStyles.None, CultureInfo.InvariantCulture, out var which)
        && int.TryParse(entry, NumberStyles.None, CultureInfo.InvariantCulture, out var index)
        && which < record.Units.Length
        && index < record.Units[which].Entries.Length
            ? record.Units[which].Entries[index]
            : null;

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
