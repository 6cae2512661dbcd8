using System.Collections.Immutable;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Rows;
using ServiceRules.Application.Submitting;
using ServiceRules.Evidence;

namespace ServiceRules.Application.Tests.Ledger;

/// <summary>Rows that can be looked at. What is asked of them by filters is asked of the databases.</summary>
internal sealed class MemoryRows : IRowWriting
{
    private readonly Lock _gate = new();
    private readonly SortedDictionary<long, RecordRows> _rows = [];
    private readonly List<Notice> _notices = [];
    private readonly Dictionary<SubmissionKey, AnsweredKey> _answers = [];

    public long Covered { get; private set; }

    public IReadOnlyList<RecordRows> All
    {
        get
        {
            lock (_gate)
            {
                return [.. _rows.Values];
            }
        }
    }

    public IReadOnlyCollection<Notice> Notices => _notices;

    public int Answers => _answers.Count;

    public RowPage<RecordRow> Records(RecordFilter filter, RowPaging paging) =>
        new([.. All.Select(rows => rows.Record)], null);

    public RowPage<UnitRow> Units(UnitFilter filter, RowPaging paging) =>
        new([.. All.SelectMany(rows => rows.Units)], null);

    public RowPage<FindingRow> Findings(FindingFilter filter, RowPaging paging) =>
        new([.. All.SelectMany(rows => rows.Findings)], null);

    public ImmutableArray<RecordRow> Versions(string record) =>
        [.. All.Select(rows => rows.Record).Where(row => row.Record == record)];

    public ImmutableArray<RecordRow> OfDays(string site, DateOnly from, DateOnly until) =>
        [
            .. All.Select(rows => rows.Record)
                .Where(row => row.IsNewest && row.Site == site && row.Day >= from && row.Day <= until)
                .OrderBy(row => row.Day),
        ];

    public ImmutableArray<RecordRow> Shown(ShownFilter filter)
    {
        var asked = All.Where(rows =>
                rows.Record.IsNewest && (rows.Record.Site is null || rows.Record.Site == filter.Site)
            )
            .SelectMany(rows => rows.Shown.Select(shown => (rows.Record, Shown: shown)))
            .Where(one =>
                one.Shown.What == filter.What
                && filter.Keys.Contains(one.Shown.Key)
                && !(one.Shown.First > filter.Until)
                && !(one.Shown.Last < filter.From)
            );
        var ordered = filter.EarliestFirst
            ? asked.OrderBy(one => one.Shown.First).ThenBy(one => one.Record.Index)
            : asked.OrderByDescending(one => one.Shown.First).ThenByDescending(one => one.Record.Index);
        return [.. ordered.Take(filter.Most).Select(one => one.Record).DistinctBy(row => row.Index)];
    }

    public AnsweredKey? Answer(SubmissionKey key)
    {
        lock (_gate)
        {
            return _answers.GetValueOrDefault(key);
        }
    }

    public IReadOnlyList<KeptRows> Kept(long from, long until) =>
        [
            .. All.Where(rows => rows.Record.Index >= from && rows.Record.Index < until)
                .Select(rows => new KeptRows(rows.Record.Index, rows, [])),
        ];

    public IReadOnlyDictionary<long, string> Sites(string record) =>
        Versions(record).Where(row => row.Site is not null).ToDictionary(row => row.Index, row => row.Site!);

    public void Put(RecordRows rows)
    {
        lock (_gate)
        {
            _rows[rows.Record.Index] = rows;
        }
    }

    public void Supersede(string record, long newest)
    {
        foreach (var rows in All.Where(rows => rows.Record.Record == record && rows.Record.Index != newest))
        {
            Put(rows with { Record = rows.Record with { IsNewest = false }, Shown = [] });
        }
    }

    public void Drop(string record)
    {
        foreach (var row in Versions(record))
        {
            lock (_gate)
            {
                _ = _rows.Remove(row.Index);
                DropAnswers(answer => answer.Record == row.Index);
            }
        }
    }

    public IReadOnlyList<string> RecordsMadeOf(string content) =>
        [
            .. All.Where(rows => rows.Record.RecordHash == content || rows.Record.AssessmentHash == content)
                .Select(rows => rows.Record.Record),
        ];

    public void Clear(long from, long until)
    {
        lock (_gate)
        {
            foreach (var index in _rows.Keys.Where(index => index >= from && index < until).ToList())
            {
                _ = _rows.Remove(index);
            }
        }
    }

    public void Owe(Notice notice)
    {
        lock (_gate)
        {
            _notices.Add(notice);
        }
    }

    public bool EndExport(string id, string turn, long rows, ContentHash digest) =>
        throw new NotSupportedException("no files are written here");

    public bool Settle(Notice notice) => throw new NotSupportedException("nothing is delivered here");

    public bool Renew(long entry, string recipient) =>
        throw new NotSupportedException("nothing is delivered here");

    public void DropAnswers(string pseudonym)
    {
        var filed = All.Where(rows => rows.Record.By == pseudonym)
            .Select(rows => rows.Record.Index)
            .ToHashSet();
        DropAnswers(answer => answer.By == pseudonym || filed.Contains(answer.Record));
    }

    private void DropAnswers(Func<AnsweredKey, bool> isMeant)
    {
        lock (_gate)
        {
            foreach (var answer in _answers.Values.Where(isMeant).ToList())
            {
                _ = _answers.Remove(answer.Key);
            }
        }
    }

    public void Cover(long size) => Covered = size;

    public void Keep(AnsweredKey answered)
    {
        lock (_gate)
        {
            _answers.Add(answered.Key, answered);
        }
    }

    public MemoryRows Copy()
    {
        var copy = new MemoryRows { Covered = Covered };
        lock (_gate)
        {
            foreach (var (index, rows) in _rows)
            {
                copy._rows.Add(index, rows);
            }

            foreach (var (key, answer) in _answers)
            {
                copy._answers.Add(key, answer);
            }
        }

        return copy;
    }
}
