using System.Collections.Immutable;
using ServiceRules.Application.Ledger;
using ServiceRules.Evidence;

namespace ServiceRules.Application.Rows;

/// <summary>
/// Makes the rows again from the log and its contents, and tells in which places those that stand are others. Where a content of
/// them is lost, and not erased, they are held against the digest that was made with them, and told where that is of others.
/// </summary>
/// <param name="log">The log.</param>
/// <param name="rows">The rows, as they are at the same moment.</param>
/// <param name="erased">The contents that were removed on purpose.</param>
internal sealed class VerifyRows(ILedgerReading log, IRowReading rows, IReadOnlySet<ContentHash> erased)
{
    /// <summary>Faults that are told each; of more, only how many there are.</summary>
    public const int ToldMost = 100;

    private const int Step = 500;

    private readonly ImmutableArray<LedgerFault>.Builder faults = ImmutableArray.CreateBuilder<LedgerFault>();
    private long untold;

    /// <summary>What a person should know, though it is no fault; null when there is nothing.</summary>
    public string? Remark { get; private set; }

    /// <param name="entries">Every entry of the log, in its order.</param>
    public ImmutableArray<LedgerFault> Verify(IReadOnlyList<FiledEntry> entries)
    {
        var size = log.Head?.Size ?? 0;
        var about = entries
            .Where(DerivedRows.Concerns)
            .ToLookup(entry => entry.Entry.Subject, StringComparer.Ordinal);
        var versions = entries.Where(DerivedRows.IsVersion).ToDictionary(entry => entry.Index);
        var covered = Math.Min(rows.Covered, size);
        if (rows.Covered > size)
        {
            Tell(
                "the rows",
                $"they say that they are made of {LedgerWords.Number(rows.Covered)} entries, here are {LedgerWords.Number(size)}"
            );
        }
        else if (covered < size)
        {
            Remark =
                $"what lists and searches are made of goes as far as the first {LedgerWords.Number(covered)} entries, and was held "
                + "against those alone; the next opening makes the rest";
        }

        Outside(long.MinValue, 0);
        for (var from = 0L; from < covered; from += Step)
        {
            var until = Math.Min(from + Step, covered);
            var kept = rows.Kept(from, until).ToDictionary(one => one.Index);
            for (var at = from; at < until; at++)
            {
                Hold(versions.GetValueOrDefault(at), kept.GetValueOrDefault(at), about);
            }
        }

        Outside(size, long.MaxValue);
        if (untold > 0)
        {
            faults.Add(
                new(
                    LedgerFaultCode.Rows,
                    "the rows",
                    $"{LedgerWords.Number(untold)} places more in which they are not what the log comes to"
                )
            );
        }

        return faults.ToImmutable();
    }

    private void Hold(FiledEntry? version, KeptRows? kept, ILookup<string, FiledEntry> about)
    {
        if (version is null)
        {
            if (kept is not null)
            {
                Stray(kept);
            }

            return;
        }

        var all = about[version.Entry.Subject].ToList();
        // Where the context of a version was erased, nothing but its row says which site it was of.
        var made = DerivedRows.Of(log, all, version, _ => kept?.Rows?.Record.Site, erased.Contains);
        if (made.Lost is { } lost)
        {
            if (kept is not { Rows: not null, Unheld.IsEmpty: true })
            {
                var fault = lost.Fault(log, version);
                Tell(fault.Where, fault.Told, fault.Code);
            }

            return;
        }

        var due = made.Rows;
        switch (kept)
        {
            case null when due is not null:
                Tell(Where(version.Index), $"`{RowTable.Record}`: its row is missing");
                break;
            case not null when due is null:
                Tell(Where(version.Index), "rows stand of it, and its content is gone");
                break;
            case { Rows: null }:
                Tell(
                    Where(version.Index),
                    $"`{string.Join("`, `", kept.Unheld)}`: they hold what no row may, or are without their version's"
                );
                break;
            case { Rows: { } stands }:
                Compare(version.Index, kept, stands, due!);
                break;
            default:
                break;
        }
    }

    private void Compare(long index, KeptRows kept, RecordRows stands, RecordRows due)
    {
        var found = RowDifference.Between(stands, due).ToList();
        foreach (var one in found)
        {
            Tell(Where(index), one.ToString());
        }

        foreach (var table in kept.Unheld.Where(table => found.TrueForAll(one => one.Table != table)))
        {
            Tell(
                Where(index),
                $"`{table}`: the rows are what they are to be, and the digest beside them is of others"
            );
        }
    }

    private void Outside(long from, long until)
    {
        foreach (var kept in rows.Kept(from, until))
        {
            Stray(kept);
        }
    }

    private void Stray(KeptRows kept) =>
        Tell(Where(kept.Index), "rows stand of it, and it is no version of a record");

    private static string Where(long index) => $"the rows of {LedgerWords.Entry(index)}";

    private void Tell(string where, string told, string code = LedgerFaultCode.Rows)
    {
        if (faults.Count < ToldMost)
        {
            faults.Add(new(code, where, told));
        }
        else
        {
            untold++;
        }
    }
}
