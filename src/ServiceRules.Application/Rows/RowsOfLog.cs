using System.Collections.Immutable;
using ServiceRules.Application.Ledger;

namespace ServiceRules.Application.Rows;

/// <summary>Keeps the rows with the log, in the transaction that changes it.</summary>
internal static class RowsOfLog
{
    /// <summary>Brings the rows to what entries that were appended make of them.</summary>
    /// <param name="writing">The transaction, in which the entries stand already.</param>
    /// <param name="added">The entries.</param>
    /// <param name="siteBefore">The site of a version, where its context is gone.</param>
    public static void Follow(
        ILedgerWriting writing,
        IEnumerable<FiledEntry> added,
        Func<long, string?>? siteBefore = null
    )
    {
        foreach (
            var subject in added
                .Where(DerivedRows.Concerns)
                .GroupBy(filed => filed.Entry.Subject, StringComparer.Ordinal)
        )
        {
            var contents = subject
                .Select(filed => DerivedRows.IsVersion(filed) ? filed.Entry.Content : filed.Entry.Of)
                .OfType<string>()
                .ToHashSet(StringComparer.Ordinal);
            Put(writing, subject.Key, contents, siteBefore);
        }
    }

    /// <summary>Brings the rows to what is left after contents were removed.</summary>
    public static void Shrink(ILedgerWriting writing, IReadOnlyCollection<Evidence.ContentHash> removed)
    {
        // Every row says what it was made of; one that is still to be made will be made of what is left.
        var concerned = removed
            .SelectMany(hash => writing.Rows.RecordsMadeOf(hash.ToString()))
            .ToImmutableSortedSet(StringComparer.Ordinal);
        foreach (var record in concerned)
        {
            var sites = writing.Rows.Sites(record);
            writing.Rows.Drop(record);
            Put(writing, record, null, index => sites.GetValueOrDefault(index));
        }
    }

    /// <summary>The sites of the versions of records, as their rows have them.</summary>
    public static Dictionary<long, string> Sites(ILedgerWriting writing, IEnumerable<FiledEntry> entries) =>
        entries
            .Where(DerivedRows.Concerns)
            .Select(filed => filed.Entry.Subject)
            .Distinct(StringComparer.Ordinal)
            .SelectMany(writing.Rows.Sites)
            .ToDictionary();

    private static void Put(
        ILedgerWriting writing,
        string record,
        HashSet<string>? contents,
        Func<long, string?>? siteBefore
    )
    {
        var about = EntryReading.About(writing, record).ToList();
        foreach (var rows in DerivedRows.Of(writing, about, contents, siteBefore ?? (_ => null)))
        {
            writing.Rows.Put(rows);
        }

        if (about.FindLast(DerivedRows.IsVersion) is { } newest)
        {
            writing.Rows.Supersede(record, newest.Index);
        }
    }
}
