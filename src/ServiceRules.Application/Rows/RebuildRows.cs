using System.Collections.Immutable;
using ServiceRules.Application.Ledger;
using ServiceRules.Evidence;

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
    /// The contents that no row could be made of, since they are lost and nothing erased them: a record would be missing from
    /// lists as if it never was.
    /// </summary>
    public ImmutableArray<LedgerFault> Lost() =>
        ledger.Read(log =>
        {
            var entries = Entries(log);
            var erased = Erasures.Of(log, entries);
            return (ImmutableArray<LedgerFault>)
                [
                    .. entries
                        .Where(DerivedRows.Concerns)
                        .Where(entry =>
                            ContentHash.TryParse(entry.Entry.Content, out var hash)
                            && !erased.Contains(hash)
                            && log.Sound(hash) is null
                        )
                        .Select(entry => new LedgerFault(
                            LedgerFaultCode.ContentMissing,
                            LedgerWords.Entry(entry.Index),
                            $"its content is {log.WhyNone(entry.Entry.Content)}"
                        )),
                ];
        });

    /// <summary>Makes every row again, in steps; those that were there answer until theirs is made.</summary>
    /// <returns>How many entries were gone through.</returns>
    public long Rebuild() => new FollowLog(ledger).Rebuild();

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
