using System.Collections.Immutable;
using ServiceRules.Application.Ledger;
using ServiceRules.Evidence;

namespace ServiceRules.Application.Rows;

/// <summary>
/// Holds the rows of the newest entries against the digests that were made with them, without reading a content: what a start
/// has time for. Rows of earlier entries are held when they are told, and by verifying the log.
/// </summary>
public sealed class CheckHeldRows(OpenLedger ledger)
{
    /// <summary>So many entries at most, some five thousand records: a few seconds.</summary>
    public const long MostEntries = 10_000;

    private const int Step = 500;

    /// <returns>What is wrong with them; empty when nothing is.</returns>
    public ImmutableArray<LedgerFault> Check(long most = MostEntries)
    {
        var damage = (ledger.Head?.Size ?? 0) <= most ? ledger.Store.CheckRows() : [];
        return
        [
            .. damage.Select(told => new LedgerFault(LedgerFaultCode.Store, "the database", told)),
            .. ledger.Read((log, rows) => Check(log, rows, most)),
        ];
    }

    private static ImmutableArray<LedgerFault> Check(ILedgerReading log, IRowReading rows, long most)
    {
        var faults = ImmutableArray.CreateBuilder<LedgerFault>();
        var size = log.Head?.Size ?? 0;
        if (rows.Covered > size)
        {
            faults.Add(
                new(
                    LedgerFaultCode.Rows,
                    "the rows",
                    $"they say that they are made of {LedgerWords.Number(rows.Covered)} entries, here are {LedgerWords.Number(size)}"
                )
            );
        }

        HashSet<ContentHash>? known = null;
        for (var from = Math.Max(0, size - most); from < size; from += Step)
        {
            var until = from + Step < size ? from + Step : long.MaxValue;
            var kept = rows.Kept(from, until).ToDictionary(one => one.Index);
            faults.AddRange(
                kept.Values.Where(one => one.Rows is null || !one.Unheld.IsEmpty)
                    .Select(one =>
                        LostOf(one.Index)
                        ?? new LedgerFault(
                            LedgerFaultCode.Rows,
                            $"the rows of {LedgerWords.Entry(one.Index)}",
                            $"`{string.Join("`, `", one.Unheld)}`: not what was made of the log"
                        )
                    )
            );
            var unseen = log.Entries(from)
                .Take(Step)
                .Where(stored => !kept.ContainsKey(stored.Index))
                .Select(stored => EntryReading.TryRead(stored, out var entry, out _) ? entry : null)
                .Where(entry => entry is not null && DerivedRows.IsVersion(entry));
            foreach (var version in unseen)
            {
                if (ContentHash.TryParse(version!.Entry.Content, out var hash) && !IsErased(hash))
                {
                    faults.Add(
                        Lost(version)
                            ?? new(
                                LedgerFaultCode.Rows,
                                $"the rows of {LedgerWords.Entry(version.Index)}",
                                $"`{RowTable.Record}`: its row is missing, and its content was not erased"
                            )
                    );
                }
            }
        }

        return faults.ToImmutable();

        bool IsErased(ContentHash hash) => (known ??= Erasures.Of(log)).Contains(hash);

        // Making them anew would not help: what they are made of is lost.
        LedgerFault? LostOf(long index) =>
            log.Entry(index) is { } stored
            && EntryReading.TryRead(stored, out var version, out _)
            && DerivedRows.IsVersion(version)
                ? Lost(version)
                : null;

        LedgerFault? Lost(FiledEntry version) =>
            DerivedRows
                .Of(log, [.. EntryReading.About(log, version.Entry.Subject)], version, _ => null, IsErased)
                .Lost?.Fault(log, version);
    }
}
