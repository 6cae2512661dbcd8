using ServiceRules.Evidence;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Ledger;

/// <summary>The contents that erasures removed, as the log says it.</summary>
internal static class Erasures
{
    // As the canonical spelling of an entry has it: entries are many, and erasures few.
    private static ReadOnlySpan<byte> Mark => "\"kind\":\"erasure\""u8;

    public static HashSet<ContentHash> Of(ILedgerReading log, IEnumerable<FiledEntry> entries)
    {
        var erased = new HashSet<ContentHash>();
        foreach (var entry in entries.Where(entry => entry.Entry.Kind is EntryKind.Erasure))
        {
            if (
                log.Sound(entry.Entry.Content) is { } bytes
                && ErasureFormat.Current.Read(bytes).TryGet(out var erasure, out _)
            )
            {
                erased.UnionWith(
                    erasure.Contents.Select(text => ContentHash.TryParse(text, out var gone) ? gone : default)
                );
            }
        }

        return erased;
    }

    public static HashSet<ContentHash> Of(ILedgerReading log) => Of(log, Entries(log));

    /// <summary>The entries of erasures.</summary>
    public static IEnumerable<FiledEntry> Entries(ILedgerReading log, long from = 0)
    {
        foreach (var stored in log.Entries(from))
        {
            if (
                stored.Bytes.Span.IndexOf(Mark) >= 0
                && EntryReading.TryRead(stored, out var entry, out _)
                && entry.Entry.Kind is EntryKind.Erasure
            )
            {
                yield return entry;
            }
        }
    }
}
