using ServiceRules.Application.Rows;
using ServiceRules.Evidence;
using ServiceRules.Formats.Assessments;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Ledger;

/// <summary>
/// Puts contents back that a log lost, out of a copy of it. What is put back has the digest that an entry names, and nothing else of
/// the copy is believed. What was removed on purpose stays removed. Others may file and ask meanwhile.
/// </summary>
public sealed class MendContents(OpenLedger ledger)
{
    // So many of them are in memory at once.
    private const int Together = 50;

    private readonly ErasuresSeen erasures = new();

    /// <param name="copy">The copy, older or newer than the log.</param>
    /// <exception cref="LedgerStoreException">The log cannot be read or written.</exception>
    public ContentsMended Mend(ILedgerReading copy)
    {
        ArgumentNullException.ThrowIfNull(copy);
        // Without them it is not known what was removed on purpose: an older copy still has that.
        var removals = Mend(copy, entry => entry.Entry.Kind is EntryKind.Erasure or EntryKind.Expiry);
        return removals.StillLost.IsEmpty
            ? removals.And(Mend(copy, _ => true))
            : removals with
            {
                IsHeldBack = true,
            };
    }

    private ContentsMended Mend(ILedgerReading copy, Func<FiledEntry, bool> isMeant)
    {
        var lost = ledger.Read(log => Lost(log, copy, isMeant));
        var found = lost.Where(one => copy.Sound(one.Hash) is not null).ToList();
        foreach (var some in found.Chunk(Together))
        {
            _ = ledger.Store.Write(writing => PutBack(writing, copy, some));
        }

        return new(
            [.. found.Select(one => one.Told)],
            [
                .. lost.Except(found)
                    .Select(one => new LedgerFault(
                        LedgerFaultCode.ContentMissing,
                        one.Told,
                        "it is lost, and the copy does not have it either"
                    )),
            ]
        );
    }

    private bool PutBack(ILedgerWriting writing, ILedgerReading copy, LostPlace[] some)
    {
        erasures.Follow(writing);
        var concerned = new SortedSet<string>(StringComparer.Ordinal);
        foreach (var (hash, _, records) in some)
        {
            // Erased since, or put back by somebody else.
            if (
                erasures.Contents.Contains(hash)
                || writing.Sound(hash) is not null
                || copy.Sound(hash) is not { } bytes
            )
            {
                continue;
            }

            if (writing.Content(hash) is not null)
            {
                writing.Remove(hash);
            }

            writing.Keep(hash, bytes);
            concerned.UnionWith(records);
        }

        foreach (var record in concerned)
        {
            RowsOfLog.Renew(writing, record, erasures.Contents.Contains);
        }

        return true;
    }

    private static List<LostPlace> Lost(
        ILedgerReading log,
        ILedgerReading copy,
        Func<FiledEntry, bool> isMeant
    )
    {
        var entries = log.Entries(0)
            .Select(stored => EntryReading.TryRead(stored, out var entry, out _) ? entry : null)
            .OfType<FiledEntry>()
            .ToList();
        var erased = Erasures.Of(log, entries);
        var seen = new Dictionary<ContentHash, LostPlace?>();
        foreach (var entry in entries.Where(isMeant))
        {
            var what = $"{LedgerWords.Entry(entry.Index)}, `{entry.Entry.Subject}`";
            Look(entry.Entry.Content, entry, what);
            if (entry.Entry.Kind is EntryKind.Report && entry.Entry.Of is { } jobs)
            {
                Look(jobs, entry, $"{what}: what it is of");
            }

            if (
                entry.Entry.Kind is EntryKind.Assessment
                && (log.Sound(entry.Entry.Content) ?? copy.Sound(entry.Entry.Content)) is { } judged
                && AssessmentFormat.DigestsOf(judged.Span) is { } digests
            )
            {
                Look(digests.Context, entry, $"{what}: its context");
                Look(digests.Packs, entry, $"{what}: its rules", isOfRows: false);
            }
        }

        return [.. seen.Values.OfType<LostPlace>()];

        // Many assessments may share a context: the rows of each are made of it.
        void Look(string digest, FiledEntry entry, string told, bool isOfRows = true)
        {
            if (!ContentHash.TryParse(digest, out var hash))
            {
                return;
            }

            if (!seen.TryGetValue(hash, out var lost))
            {
                lost = erased.Contains(hash) || log.Sound(hash) is not null ? null : new(hash, told, []);
                seen.Add(hash, lost);
            }

            if (isOfRows && DerivedRows.Concerns(entry))
            {
                _ = lost?.Records.Add(entry.Entry.Subject);
            }
        }
    }

    private sealed record LostPlace(ContentHash Hash, string Told, SortedSet<string> Records);
}
