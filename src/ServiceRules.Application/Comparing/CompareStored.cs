using System.Collections.Immutable;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Library;
using ServiceRules.Application.Rows;
using ServiceRules.Application.Submitting;
using ServiceRules.Formats.Records;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Comparing;

/// <summary>
/// What would change of the newest stored records: each is judged by the rules in force and by others, with the registers of
/// today and knowing what the stored ones show of its machine, locks and people. Nothing is stored.
/// </summary>
public sealed class CompareStored
{
    private readonly SiteRegisters site;
    private readonly StoredOthers others;
    private readonly FlipSearch search;
    private readonly ImmutableArray<FolderChange> changes;

    /// <param name="old">The rules in force.</param>
    /// <param name="now">The others.</param>
    /// <param name="site">The registers that both are held with.</param>
    /// <param name="isOfSeveral">Whether records of other sites are stored as well.</param>
    public CompareStored(RuleBook old, RuleBook now, SiteRegisters site, bool isOfSeveral = false)
    {
        this.site = site;
        others = new(site, isOfSeveral);
        var (before, after) = (new RuleSide(old, site), new RuleSide(now, site));
        changes = FolderChanges.Between(before, after);
        search = new(before, after, changes);
    }

    /// <param name="log">The log.</param>
    /// <param name="rows">Its rows.</param>
    /// <param name="newest">How many records are judged at most.</param>
    /// <param name="stop">Whether nobody waits any more.</param>
    public StoredCompared Compare(ILedgerReading log, IRowReading rows, int newest, CancellationToken stop)
    {
        ArgumentNullException.ThrowIfNull(log);
        ArgumentNullException.ThrowIfNull(rows);
        var totals = new ComparedTotals();
        var turned = ImmutableArray.CreateBuilder<RecordCompared>();
        var notKept = 0;
        var now = new StoredNow(log, rows);
        foreach (
            var row in rows.Records(
                new RecordFilter { Site = site.Name },
                new RowPaging { Most = newest }
            ).Rows
        )
        {
            stop.ThrowIfCancellationRequested();
            if (Compare(row, now) is not { } compared)
            {
                notKept++;
                continue;
            }

            totals.Add(compared);
            if (compared.HasChanged)
            {
                turned.Add(compared);
            }
        }

        return new(changes, totals, turned.ToImmutable(), notKept);
    }

    private RecordCompared? Compare(RecordRow row, StoredNow now)
    {
        if (
            now.Log.Sound(row.RecordHash) is not { } bytes
            || !RecordFormat.Current.Read(bytes).TryGet(out var record, out _, out _)
        )
        {
            return null;
        }

        var own = WorkElsewhere.Read(record, site.Zone);
        var beside = WorkElsewhere.Of(
            others.Near(own, now, []).Select(other => other.Told).Append(own),
            site.Zone
        );
        return search.Compare(row.Record, record, _ => beside);
    }
}
