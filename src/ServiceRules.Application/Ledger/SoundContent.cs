using ServiceRules.Evidence;

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

    /// <summary>Why there are no sound bytes of what an entry names.</summary>
    internal static string WhyNone(this ILedgerReading log, string digest) =>
        !ContentHash.TryParse(digest, out var hash) ? "of a digest that is none"
        : log.Content(hash) is not null ? "kept with other bytes than were filed"
        : log.IsErased(hash) ? "erased"
        : "missing, and no erasure removed it";

    /// <summary>Whether the log says that a content was removed on purpose.</summary>
    internal static bool IsErased(this ILedgerReading log, ContentHash hash) =>
        Erasures.Of(log).Contains(hash);
}
