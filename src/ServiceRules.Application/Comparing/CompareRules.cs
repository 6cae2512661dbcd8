using System.Collections.Concurrent;
using System.Collections.Immutable;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Filed;
using ServiceRules.Application.Library;
using ServiceRules.Application.Reports;
using ServiceRules.Domain;
using ServiceRules.Domain.Records;
using ServiceRules.Rules.Model;

namespace ServiceRules.Application.Comparing;

/// <summary>
/// What would change: judges records by two folders of rules and tells each flip with its cause. The files are gone through
/// twice, first to find which records count and where locks and people were, then to judge them some at a time: kept of a
/// record is its path and some kilobytes of timeline. Each folder's registers speak, also for a record that brings its own context or rules.
/// </summary>
public sealed class CompareRules
{
    // As many records in memory as keep all processors busy between two lots.
    private const int Lot = 64;

    private readonly RuleSide old;
    private readonly RuleSide now;
    private readonly FlipSearch search;
    private readonly RuleBook both;
    private readonly IReportReader reports;

    /// <param name="old">Sound rules with their site.</param>
    /// <param name="now">The same, as they would be.</param>
    /// <param name="reports">Reads signed reports.</param>
    public CompareRules(LoadedRules old, LoadedRules now, IReportReader reports)
    {
        ArgumentNullException.ThrowIfNull(old);
        ArgumentNullException.ThrowIfNull(now);
        this.reports = reports;
        this.old = new(old.Book, old.Site!);
        this.now = new(now.Book, now.Site!);
        Changes = FolderChanges.Between(this.old, this.now);
        search = new(this.old, this.now, Changes);
        // A record may name what only one of the two has.
        both = new(
            [.. old.Book.Packs, .. now.Book.Packs],
            [
                .. old
                    .Book.Sheets.Concat(now.Book.Sheets)
                    .DistinctBy(sheet => sheet.Id.Text, StringComparer.Ordinal),
            ]
        );
    }

    /// <summary>Everything that the two folders say differently.</summary>
    public ImmutableArray<FolderChange> Changes { get; }

    /// <summary>Finds which files hold records that count, as for every answer over many files.</summary>
    public RecordsGathered Gather(IEnumerable<string> paths)
    {
        Dictionary<Id<ServiceRecord>, WorkElsewhere.RecordTold> told = [];
        Dictionary<Id<ServiceRecord>, WorkElsewhere.RecordTold> toldNow = [];
        var gathered = new RecordGathering(reports, both, old.Site.Name).Gather(
            paths,
            filed =>
            {
                told[filed.Record.Id] = WorkElsewhere.Read(filed.Record, old.Site.Zone);
                toldNow[filed.Record.Id] = WorkElsewhere.Read(filed.Record, now.Site.Zone);
                return filed.File;
            }
        );
        var before = WorkElsewhere.Of(told.Values, old.Site.Zone);
        var after = WorkElsewhere.Of(toldNow.Values, now.Site.Zone);
        return new(
            gathered.Files,
            gathered.Kept,
            side => ReferenceEquals(side.Site.Zone, now.Site.Zone) ? after : before
        );
    }

    /// <summary>Judges the records by both folders and hands each out as it is done, in their order.</summary>
    /// <param name="records">Which.</param>
    /// <param name="each">Told of each record.</param>
    /// <param name="lost">Told of a file that is no longer what it was.</param>
    public ComparedTotals Compare(
        RecordsGathered records,
        Action<RecordCompared> each,
        Action<FiledProblem> lost
    )
    {
        ArgumentNullException.ThrowIfNull(records);
        ArgumentNullException.ThrowIfNull(each);
        ArgumentNullException.ThrowIfNull(lost);
        var totals = new ComparedTotals();
        ConcurrentBag<FileReading> readers = [];
        foreach (var paths in records.Paths.Chunk(Lot))
        {
            var compared = new RecordCompared?[paths.Length];
            var problems = new FiledProblem?[paths.Length];
            Parallel.For(
                0,
                paths.Length,
                at =>
                {
                    var reader = readers.TryTake(out var free) ? free : new FileReading(reports, both);
                    if (reader.TryRead(paths[at], out var filed, out problems[at]))
                    {
                        compared[at] = search.Compare(filed.File, filed.Record, records.Others);
                    }

                    readers.Add(reader);
                }
            );
            for (var at = 0; at < paths.Length; at++)
            {
                if (compared[at] is { } record)
                {
                    totals.Add(record);
                    each(record);
                }
                else if (problems[at] is { } problem)
                {
                    lost(problem);
                }
            }
        }

        return totals;
    }
}
