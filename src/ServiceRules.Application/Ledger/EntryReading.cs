using System.Diagnostics.CodeAnalysis;
using ServiceRules.Evidence;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Ledger;

/// <summary>Reads leaves. A leaf has one spelling, the canonical one; nothing else is taken.</summary>
public static class EntryReading
{
    public static bool TryRead(
        StoredEntry stored,
        [NotNullWhen(true)] out FiledEntry? entry,
        [NotNullWhen(false)] out string? why
    )
    {
        ArgumentNullException.ThrowIfNull(stored);
        entry = null;
        if (!CanonicalJson.Canonicalise(stored.Bytes.Span).TryGet(out var document, out var refusal))
        {
            why = refusal.ToString();
            return false;
        }

        if (!document.Bytes.Span.SequenceEqual(stored.Bytes.Span))
        {
            why = "this is not the canonical spelling (RFC 8785)";
            return false;
        }

        if (!LedgerEntryFormat.Current.Read(stored.Bytes).TryGet(out var read, out var problems))
        {
            why = string.Join("; ", problems.Lines());
            return false;
        }

        entry = new FiledEntry(stored.Index, read, stored.Bytes);
        why = null;
        return true;
    }

    /// <summary>The entries about a subject, in the order of the log.</summary>
    /// <exception cref="BrokenLogException">One of them is no entry.</exception>
    internal static IEnumerable<FiledEntry> About(ILedgerReading log, string subject) =>
        log.About(subject).Select(index => At(log, index));

    private static FiledEntry At(ILedgerReading log, long index)
    {
        var place = LedgerWords.Entry(index);
        return log.Entry(index) is not { } stored
                ? throw new BrokenLogException(new(LedgerFaultCode.EntryMissing, place, "it is not there"))
            : TryRead(stored, out var entry, out var why) ? entry
            : throw new BrokenLogException(new(LedgerFaultCode.Entry, place, why));
    }
}
