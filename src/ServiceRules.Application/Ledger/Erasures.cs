using System.Collections.Immutable;
using ServiceRules.Evidence;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Ledger;

/// <summary>The contents that erasures removed, as the log says it.</summary>
internal static class Erasures
{
    // As the canonical spelling of an entry has it: entries are many, and erasures few.
    private static ReadOnlySpan<byte> Mark => "\"kind\":\"erasure\""u8;

    private static ReadOnlySpan<byte> OtherMark => "\"kind\":\"expiry\""u8;

    public static HashSet<ContentHash> Of(ILedgerReading log, IEnumerable<FiledEntry> entries) =>
        [
            .. entries
                .SelectMany(entry => Removed(log, entry))
                .Select(text => ContentHash.TryParse(text, out var gone) ? gone : default),
        ];

    public static HashSet<ContentHash> Of(ILedgerReading log) => Of(log, Entries(log));

    /// <summary>The entry that says that a content was removed; null where none does.</summary>
    public static FiledEntry? Naming(ILedgerReading log, ContentHash hash) =>
        Entries(log).LastOrDefault(entry => Removed(log, entry).Contains(hash.ToString()));

    /// <summary>The entries of erasures, and of contents whose time was over.</summary>
    public static IEnumerable<FiledEntry> Entries(ILedgerReading log, long from = 0)
    {
        foreach (var stored in log.Entries(from))
        {
            if (
                (stored.Bytes.Span.IndexOf(Mark) >= 0 || stored.Bytes.Span.IndexOf(OtherMark) >= 0)
                && EntryReading.TryRead(stored, out var entry, out _)
                && entry.Entry.Kind is (EntryKind.Erasure or EntryKind.Expiry)
            )
            {
                yield return entry;
            }
        }
    }

    private static ImmutableArray<string> Removed(ILedgerReading log, FiledEntry entry) =>
        (entry.Entry.Kind, log.Sound(entry.Entry.Content)) switch
        {
            (EntryKind.Erasure, { } bytes)
                when ErasureFormat.Current.Read(bytes).TryGet(out var erasure, out _) => erasure.Contents,
            (EntryKind.Expiry, { } bytes)
                when ExpiryFormat.Current.Read(bytes).TryGet(out var expiry, out _) => expiry.Contents,
            _ => [],
        };
}
