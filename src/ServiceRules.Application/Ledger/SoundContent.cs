using System.Globalization;
using ServiceRules.Evidence;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Ledger;

/// <summary>Contents of which the bytes still have the hash that they are stored under.</summary>
public static class SoundContent
{
    /// <summary>The bytes as they were filed; null when they are gone or are others now.</summary>
    internal static ReadOnlyMemory<byte>? Sound(this ILedgerReading log, ContentHash hash) =>
        log.Content(hash) is { } bytes && ContentHash.Of(bytes.Span) == hash
            ? bytes
            // Plain null would become empty bytes here.
            : default(ReadOnlyMemory<byte>?);

    /// <summary>The same, asked for by what an entry says.</summary>
    public static ReadOnlyMemory<byte>? Sound(this ILedgerReading log, string digest) =>
        ContentHash.TryParse(digest, out var hash) ? log.Sound(hash) : default;

    /// <summary>The same, for whoever answers with it: null only where an erasure removed it.</summary>
    /// <exception cref="LedgerStoreException">It is gone, or other bytes now, and no erasure removed it.</exception>
    public static ReadOnlyMemory<byte>? Kept(this ILedgerReading log, string digest) =>
        log.Sound(digest) is { } bytes ? bytes
        : ContentHash.TryParse(digest, out var hash) && log.Content(hash) is null && log.IsErased(hash)
            ? default(ReadOnlyMemory<byte>?)
        : throw new LedgerStoreException(
            StoreTrouble.Damaged,
            $"the content {digest} is {log.WhyNone(digest)}"
        );

    /// <summary>Those of some contents, of which there are no sound bytes, that no erasure removed.</summary>
    public static IReadOnlyCollection<ContentHash> Lost(
        this ILedgerReading log,
        IReadOnlyCollection<ContentHash> gone
    )
    {
        ArgumentNullException.ThrowIfNull(gone);
        // The log is asked once for all of them, and not where nothing is gone.
        return gone.Count == 0 ? gone : [.. gone.Except(Erasures.Of(log))];
    }

    /// <summary>Why there are no sound bytes of what an entry names.</summary>
    internal static string WhyNone(this ILedgerReading log, string digest) =>
        !ContentHash.TryParse(digest, out var hash) ? "of a digest that is none"
        : log.Content(hash) is not null ? "kept with other bytes than were filed"
        : Erasures.Naming(log, hash) is { } removal ? Told(removal)
        : "missing, and no erasure removed it";

    private static string Told(FiledEntry removal) =>
        removal.Entry.Kind is EntryKind.Expiry
            ? string.Create(
                CultureInfo.InvariantCulture,
                // What runs by itself has nobody who answers for it: whoever gives up what is lost does.
                $"{(removal.Entry.Reason is null ? "erased by retention" : "given up as lost")} on {removal.Entry.At.UtcDateTime:yyyy-MM-dd}"
            )
            : "erased";

    /// <summary>Whether the log says that a content was removed on purpose.</summary>
    internal static bool IsErased(this ILedgerReading log, ContentHash hash) =>
        Erasures.Of(log).Contains(hash);
}
