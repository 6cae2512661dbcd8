using System.Collections.Immutable;
using ServiceRules.Application.Ledger;

namespace ServiceRules.Application.Rows;

/// <summary>
/// Brings the rows to where the log is, or makes them anew from it: nothing in them is known from anywhere else. Goes in
/// steps, so that filings are not kept waiting for long; a stop in between goes on at the next call. Where a content is lost that
/// rows are made of, those that stand stay as they are: whether they are what was made of it, their digest tells.
/// </summary>
public sealed class FollowLog(OpenLedger ledger)
{
    private const int StepEntries = 500;

    private readonly SortedDictionary<long, LedgerFault> lost = [];
    private readonly ErasuresSeen erasures = new();

    /// <summary>The rows that could not be made, each with what is lost of it.</summary>
    public ImmutableArray<LedgerFault> Lost => [.. lost.Values];

    /// <returns>How many entries were gone through.</returns>
    public long BringUp()
    {
        var sum = 0L;
        while (ledger.Store.Write(Step) is var step and > 0)
        {
            sum += step;
        }

        return sum;
    }

    /// <summary>Makes every row again. Those that were there answer until theirs is made.</summary>
    /// <returns>How many entries were gone through.</returns>
    public long Rebuild()
    {
        ledger.Store.RenewRowIndexes();
        _ = ledger.Store.Write(writing =>
        {
            writing.Rows.Clear(long.MinValue, 0);
            writing.Rows.Clear(writing.Head?.Size ?? 0, long.MaxValue);
            writing.Rows.Cover(0);
            return true;
        });
        return BringUp();
    }

    private int Step(ILedgerWriting writing)
    {
        var from = writing.Rows.Covered;
        if (from >= (writing.Head?.Size ?? 0))
        {
            return 0;
        }

        erasures.Follow(writing);
        var entries = writing.Entries(from).Take(StepEntries).Select(Read).ToList();
        // Where the context of a version was erased since, nothing but its rows says which site it was of.
        var sites = RowsOfLog.Sites(writing, entries);
        var followed = RowsOfLog.Of(
            writing,
            entries,
            erasures.Contents.Contains,
            index => sites.GetValueOrDefault(index)
        );
        var until = from + entries.Count;
        var next = from;
        foreach (var (index, fault) in followed.Lost)
        {
            lost[index] = fault;
            // One of another step is left standing by that.
            if (index >= from && index < until)
            {
                writing.Rows.Clear(next, index);
                next = index + 1;
            }
        }

        writing.Rows.Clear(next, until);
        followed.Put(writing.Rows);
        writing.Rows.Cover(until);
        return entries.Count;
    }

    private static FiledEntry Read(StoredEntry stored) =>
        EntryReading.TryRead(stored, out var entry, out var why)
            ? entry
            : throw new LedgerStoreException(
                StoreTrouble.Damaged,
                $"{LedgerWords.Entry(stored.Index)} cannot be read: {why}"
            );
}
