using System.Collections.Immutable;
using ServiceRules.Application.Ledger;
using ServiceRules.Evidence;

namespace ServiceRules.Application.Rows;

/// <summary>Keeps the rows with the log, in the transaction that changes it.</summary>
internal static class RowsOfLog
{
    /// <summary>What entries come to that were appended, or that the rows do not cover yet.</summary>
    /// <param name="log">The log, in which the entries stand already.</param>
    /// <param name="added">The entries.</param>
    /// <param name="isErased">Whether a content that is not there was removed on purpose.</param>
    /// <param name="siteBefore">The site of a version, where its context is gone.</param>
    public static FollowedRows Of(
        ILedgerReading log,
        IEnumerable<FiledEntry> added,
        Func<ContentHash, bool> isErased,
        Func<long, string?> siteBefore
    )
    {
        var followed = new FollowedRows();
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
            followed.Add(log, subject.Key, contents, isErased, siteBefore);
        }

        return followed;
    }

    /// <summary>Brings the rows to what entries that were just appended make of them.</summary>
    public static void Follow(
        ILedgerWriting writing,
        IEnumerable<FiledEntry> added,
        Func<ContentHash, bool> isErased
    ) => Of(writing, added, isErased, _ => null).Put(writing.Rows);

    /// <summary>Makes the rows of a record again, after contents of it were put back.</summary>
    public static void Renew(ILedgerWriting writing, string record, Func<ContentHash, bool> isErased)
    {
        var sites = writing.Rows.Sites(record);
        Put(writing, record, isErased, sites);
    }

    /// <summary>Brings the rows to what is left after contents were removed.</summary>
    public static void Shrink(
        ILedgerWriting writing,
        IReadOnlyCollection<ContentHash> removed,
        Func<ContentHash, bool> isErased
    )
    {
        // Every row says what it was made of; one that is still to be made will be made of what is left.
        var concerned = removed
            .SelectMany(hash => writing.Rows.RecordsMadeOf(hash.ToString()))
            .ToImmutableSortedSet(StringComparer.Ordinal);
        foreach (var record in concerned)
        {
            var sites = writing.Rows.Sites(record);
            writing.Rows.Drop(record);
            Put(writing, record, isErased, sites);
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
        Func<ContentHash, bool> isErased,
        IReadOnlyDictionary<long, string> sites
    )
    {
        var followed = new FollowedRows();
        followed.Add(writing, record, null, isErased, index => sites.GetValueOrDefault(index));
        followed.Put(writing.Rows);
    }
}
