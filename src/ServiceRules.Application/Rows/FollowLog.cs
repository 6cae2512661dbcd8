using ServiceRules.Application.Ledger;

namespace ServiceRules.Application.Rows;

/// <summary>
/// Brings the rows to where the log is, or makes them anew from it: nothing in them is known from anywhere else. Goes in
/// steps, so that filings are not kept waiting for long; a stop in between goes on at the next call.
/// </summary>
public sealed class FollowLog(OpenLedger ledger)
{
    private const int StepEntries = 500;

    /// <returns>How many entries were gone through.</returns>
    public long BringUp() => BringUp(null);

    /// <summary>Removes every row and makes it again. Meanwhile answers are incomplete.</summary>
    /// <returns>How many entries were gone through.</returns>
    public long Rebuild()
    {
        // Where the context of a version was erased since, nothing but its rows says which site it was of.
        var sites = Sites();
        _ = ledger.Store.Write(writing =>
        {
            writing.Rows.Clear();
            writing.Rows.Cover(0);
            return true;
        });
        return BringUp(index => sites.GetValueOrDefault(index));
    }

    private long BringUp(Func<long, string?>? siteBefore)
    {
        var sum = 0L;
        while (ledger.Store.Write(writing => Step(writing, siteBefore)) is var step and > 0)
        {
            sum += step;
        }

        return sum;
    }

    private static int Step(ILedgerWriting writing, Func<long, string?>? siteBefore)
    {
        var from = writing.Rows.Covered;
        if (from >= (writing.Head?.Size ?? 0))
        {
            return 0;
        }

        var entries = writing.Entries(from).Take(StepEntries).ToList();
        RowsOfLog.Follow(writing, entries.Select(Read), siteBefore);
        writing.Rows.Cover(from + entries.Count);
        return entries.Count;
    }

    private static FiledEntry Read(StoredEntry stored) =>
        EntryReading.TryRead(stored, out var entry, out var why)
            ? entry
            : throw new LedgerStoreException(
                StoreTrouble.Damaged,
                $"{LedgerWords.Entry(stored.Index)} cannot be read: {why}"
            );

    private Dictionary<long, string> Sites()
    {
        var sites = new Dictionary<long, string>();
        var paging = new RowPaging { Most = RowPaging.MostRows, OldestFirst = true };
        while (true)
        {
            var page = ledger.Rows.Records(new RecordFilter { AllVersions = true }, paging);
            foreach (var row in page.Rows)
            {
                if (row.Site is { } site)
                {
                    sites[row.Index] = string.Intern(site);
                }
            }

            if (page.Next is null)
            {
                return sites;
            }

            paging = paging with { Beyond = page.Next };
        }
    }
}
