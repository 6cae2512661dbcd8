using System.Collections.Immutable;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Library;
using ServiceRules.Application.Rows;
using ServiceRules.Formats.Records;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Due;

/// <summary>Looks through the stored records of a site for what falls due.</summary>
public static class LookThroughRecords
{
    /// <summary>The newest so many are looked through: what a large shop files in several years.</summary>
    public const int MostRecords = 5000;

    private const int Together = 500;

    /// <param name="ledger">The log.</param>
    /// <param name="site">The site.</param>
    /// <param name="book">The rules in force.</param>
    /// <param name="stop">When to break off.</param>
    public static ImmutableArray<DueThing> Of(
        OpenLedger ledger,
        SiteRegisters site,
        RuleBook book,
        CancellationToken stop
    )
    {
        ArgumentNullException.ThrowIfNull(ledger);
        ArgumentNullException.ThrowIfNull(site);
        var told = new DueOfRecords(site, book);
        var filter = new RecordFilter { Site = site.Name };
        RowPlace? beyond = null;
        var looked = 0;
        do
        {
            var page = ledger.Rows.Records(filter, new RowPaging { Most = Together, Beyond = beyond });
            foreach (var row in page.Rows)
            {
                stop.ThrowIfCancellationRequested();
                // What was erased says nothing, and neither does what sheets in force do not have any more.
                if (
                    ledger.Log.Sound(row.RecordHash) is { } kept
                    && RecordFormat.Current.Read(kept).TryGet(out var record, out var source, out _)
                    && RecordReferences.Check(record, source, book).IsEmpty
                )
                {
                    told.Add(record);
                }
            }

            looked += page.Rows.Length;
            beyond = page.Next;
        } while (beyond is not null && looked < MostRecords);

        return told.Told();
    }
}
