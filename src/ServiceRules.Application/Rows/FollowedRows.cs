using ServiceRules.Application.Ledger;

namespace ServiceRules.Application.Rows;

/// <summary>What rows come to by the log, before they are put.</summary>
internal sealed class FollowedRows
{
    private readonly List<RecordRows> made = [];
    private readonly List<(string Record, long Index)> newest = [];

    /// <summary>The versions whose rows stay as they are, with what is lost of them.</summary>
    public SortedDictionary<long, LedgerFault> Lost { get; } = [];

    /// <summary>Adds those of a record.</summary>
    /// <param name="log">The log.</param>
    /// <param name="record">The record.</param>
    /// <param name="contents">Digests of the versions asked for; null: of all.</param>
    /// <param name="isErased">Whether a content that is not there was removed on purpose.</param>
    /// <param name="siteBefore">The site of a version, where its context is gone.</param>
    public void Add(
        ILedgerReading log,
        string record,
        IReadOnlySet<string>? contents,
        Func<Evidence.ContentHash, bool> isErased,
        Func<long, string?> siteBefore
    )
    {
        var about = EntryReading.About(log, record).ToList();
        foreach (var (version, one) in DerivedRows.Of(log, about, contents, siteBefore, isErased))
        {
            if (one.Rows is { } rows)
            {
                made.Add(rows);
            }
            else if (one.Lost is { } lost)
            {
                Lost[version.Index] = lost.Fault(log, version);
            }
        }

        if (about.FindLast(DerivedRows.IsVersion) is { } last)
        {
            newest.Add((record, last.Index));
        }
    }

    /// <summary>Puts them in the place of those that stand.</summary>
    public void Put(IRowWriting rows)
    {
        foreach (var one in made)
        {
            rows.Put(one);
        }

        foreach (var (record, index) in newest)
        {
            rows.Supersede(record, index);
        }
    }
}
