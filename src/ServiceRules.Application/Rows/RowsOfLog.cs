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
        var gone = removed.Select(hash => hash.ToString()).ToHashSet(StringComparer.Ordinal);
        var concerned = new SortedSet<string>(StringComparer.Ordinal);
        foreach (var stored in writing.Entries(0))
        {
            if (
                EntryReading.TryRead(stored, out var filed, out _)
                && DerivedRows.Concerns(filed)
                && gone.Contains(filed.Entry.Content)
            )
            {
                _ = concerned.Add(filed.Entry.Subject);
            }
        }

        foreach (var record in concerned)
        {
            var sites = writing.Rows.Versions(record).ToDictionary(row => row.Index, row => row.Site);
            writing.Rows.Drop(record);
            Put(writing, record, null, index => sites.GetValueOrDefault(index));
        }
    }

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
