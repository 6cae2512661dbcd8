using System.Collections.Immutable;
using System.Text.Json;
using ServiceRules.Application.Ledger;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Notices;

/// <summary>What a recipient is told of an assessment, in the words of the formats.</summary>
/// <param name="Record">Identity of the record.</param>
/// <param name="Disposition">Whether the job may go out.</param>
/// <param name="Units">The units of the job.</param>
/// <param name="Entry">Place of the assessment in the log.</param>
/// <param name="FiledAt">When it was filed.</param>
public sealed record ToldNotice(
    string Record,
    string Disposition,
    ImmutableArray<ToldNotice.OfUnit> Units,
    long Entry,
    DateTimeOffset FiledAt
)
{
    /// <summary>Null where the assessment was erased.</summary>
    /// <exception cref="LedgerStoreException">It is gone, or other bytes now, and no erasure removed it.</exception>
    public static ToldNotice? Of(ILedgerReading log, long entry)
    {
        ArgumentNullException.ThrowIfNull(log);
        if (
            log.Entry(entry) is not { } stored
            || !EntryReading.TryRead(stored, out var filed, out _)
            || filed.Entry.Kind is not EntryKind.Assessment
            || log.Sound(filed.Entry.Content) is not { } bytes
        )
        {
            return null;
        }

        using var told = JsonDocument.Parse(bytes);
        return new(
            filed.Entry.Subject,
            told.RootElement.GetProperty("job").GetProperty("disposition").GetString()!,
            told.RootElement.TryGetProperty("units", out var units)
                ? [.. units.EnumerateArray().Select(Unit)]
                : [],
            entry,
            filed.Entry.At
        );
    }

    private static OfUnit Unit(JsonElement unit) =>
        new(
            unit.GetProperty("unit").GetString()!,
            unit.GetProperty("outcome").GetProperty("disposition").GetString()!
        );

    /// <summary>One unit.</summary>
    public sealed record OfUnit(string Unit, string Disposition);
}
