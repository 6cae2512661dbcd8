using ServiceRules.Application.Assessing;
using ServiceRules.Application.Filed;
using ServiceRules.Application.Keeping;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rows;
using ServiceRules.Domain.Site;
using ServiceRules.Formats.Records;
using ServiceRules.Formats.Registers;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.SafeWork;

/// <summary>
/// The stored records of a site around a period, each in its newest version and with the registers that were frozen when it was judged.
/// </summary>
/// <param name="ledger">The log.</param>
/// <param name="site">The site.</param>
/// <param name="book">The rules in force.</param>
/// <param name="from">First day of the period.</param>
/// <param name="until">Last day of the period.</param>
/// <param name="stop">When to break off.</param>
public sealed class StoredRecords(
    OpenLedger ledger,
    string site,
    RuleBook book,
    DateOnly from,
    DateOnly until,
    CancellationToken stop
) : IRecordSource
{
    private const int Together = 500;

    // What was begun before the period may still have its locks on in it.
    private const int DaysBeside = ShownFilter.LongestJobDays;

    /// <summary>How many records are dated in the period, counted no further than one more than so many.</summary>
    public int Count(int most)
    {
        var count = 0;
        RowPlace? beyond = null;
        do
        {
            stop.ThrowIfCancellationRequested();
            var page = Page(from, until, beyond);
            count += page.Rows.Length;
            beyond = page.Next;
        } while (beyond is not null && count <= most);

        return count;
    }

    public Gathered<T> Gather<T>(Func<FiledRecord, T?> keep)
        where T : class
    {
        ArgumentNullException.ThrowIfNull(keep);
        List<(DateOnly Day, string Id, T Kept)> kept = [];
        List<FiledProblem> problems = [];
        RowPlace? beyond = null;
        do
        {
            var page = Page(Before(from), After(until), beyond);
            foreach (var row in page.Rows)
            {
                stop.ThrowIfCancellationRequested();
                if (Read(row, out var why) is { } filed)
                {
                    if (keep(filed) is { } one)
                    {
                        kept.Add((filed.Record.Date, filed.Record.Id.Text, one));
                    }
                }
                else if (row.Day >= from && row.Day <= until)
                {
                    problems.Add(new(row.Record, [why]));
                }
            }

            beyond = page.Next;
        } while (beyond is not null);

        return new(
            [
                .. kept.OrderBy(one => one.Day)
                    .ThenBy(one => one.Id, StringComparer.Ordinal)
                    .Select(one => one.Kept),
            ],
            new([.. problems], kept.Count, 0, 0)
        );
    }

    private RowPage<RecordRow> Page(DateOnly first, DateOnly last, RowPlace? beyond) =>
        ledger.Rows.Records(
            new RecordFilter
            {
                Site = site,
                From = first,
                Until = last,
            },
            new RowPaging
            {
                Most = Together,
                Beyond = beyond,
                OldestFirst = true,
            }
        );

    private FiledRecord? Read(RecordRow row, out string why)
    {
        why = "";
        if (ledger.Log.Sound(row.RecordHash) is not { } bytes)
        {
            why = "it is no longer kept";
            return null;
        }

        if (
            !RecordFormat.Current.Read(bytes).TryGet(out var record, out var source, out var problems)
            || (problems = RecordReferences.Check(record, source, book)) is { IsEmpty: false }
        )
        {
            why = problems.Told[0].ToString();
            return null;
        }

        // The rules beside it say that it stays as it was frozen.
        return new(row.Record, record, CanonicalForm.Of(bytes.Span), ContextOf(row), book)
        {
            Sender =
                ledger.Log.Entry(row.Index) is { } stored
                && EntryReading.TryRead(stored, out var entry, out _)
                    ? entry.Entry.Sender?.Name
                    : null,
        };
    }

    private AssessmentContext? ContextOf(RecordRow row) =>
        row.AssessmentHash is { } assessment
        && ContextUse.Of(ledger.Log, assessment) is { } digest
        && ledger.Log.Sound(digest) is { } bytes
        && ContextFormat.Current.Read(bytes).TryGet(out var context, out _)
            ? context
            : null;

    private static DateOnly Before(DateOnly day) =>
        day.DayNumber > DaysBeside ? day.AddDays(-DaysBeside) : DateOnly.MinValue;

    private static DateOnly After(DateOnly day) =>
        DateOnly.MaxValue.DayNumber - day.DayNumber > DaysBeside
            ? day.AddDays(DaysBeside)
            : DateOnly.MaxValue;
}
