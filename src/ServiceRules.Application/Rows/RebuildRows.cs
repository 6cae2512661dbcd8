using System.Collections.Immutable;
using ServiceRules.Application.Ledger;

namespace ServiceRules.Application.Rows;

/// <summary>Holds the rows against the log and its contents, and makes them anew. Others may file and ask meanwhile.</summary>
public sealed class RebuildRows(OpenLedger ledger)
{
    /// <returns>Where the rows that stand are not what the log comes to; empty when nowhere.</returns>
    public ImmutableArray<LedgerFault> Check() =>
        ledger.Read(
            (log, rows) =>
            {
                var entries = Entries(log);
                return new VerifyRows(log, rows, Erasures.Of(log, entries)).Verify(entries);
            }
        );

    /// <summary>
    /// Makes every row again, in steps; those that were there answer until theirs is made. Those of which a content is lost stay as
    /// they were, so that no record vanishes from lists as if it never was.
    /// </summary>
    public RebuiltRows Rebuild()
    {
        var following = new FollowLog(ledger);
        return new(following.Rebuild(), following.Lost);
    }

    private static List<FiledEntry> Entries(ILedgerReading log) =>
        [
            .. log.Entries(0)
                .Select(stored =>
                    EntryReading.TryRead(stored, out var entry, out var why)
                        ? entry
                        : throw new LedgerStoreException(
                            StoreTrouble.Damaged,
                            $"{LedgerWords.Entry(stored.Index)} cannot be read: {why}"
                        )
                ),
        ];
}
