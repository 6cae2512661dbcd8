using System.Globalization;
using ServiceRules.Domain.Records;

namespace ServiceRules.Application.Comparing;

/// <summary>The gauge that an entry of a record was read with, or that is itself the entry.</summary>
internal static class EvidenceGauge
{
    public static string? Of(ServiceRecord record, string pointer) =>
        pointer.Split('/') switch
        {
            ["", "units", var unit, "entries", var entry, ..]
                when Index(unit, record.Units.Length) is { } at
                    && Index(entry, record.Units[at].Entries.Length) is { } line => (
                record.Units[at].Entries[line] as Reading
            )
                ?.Instrument
                ?.Text,
            ["", "instruments", var gauge, ..] when Index(gauge, record.Instruments.Length) is { } at =>
                record.Instruments[at].Id.Text,
            _ => null,
        };

    private static int? Index(string text, int count) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var index) && index < count
            ? index
            : null;
}
