using System.Collections.Immutable;
using ServiceRules.Application.Notices;
using ServiceRules.Application.Rows;
using ServiceRules.Application.Submitting;
using ServiceRules.Evidence;

namespace ServiceRules.Application.Tests.Ledger;

/// <summary>Rows whose changes are among the calls that fail.</summary>
internal sealed class FailingRows(IRowWriting inner, Action<Action> counted) : IRowWriting
{
    public long Covered => inner.Covered;

    public RowPage<RecordRow> Records(RecordFilter filter, RowPaging paging) => inner.Records(filter, paging);

    public RowPage<UnitRow> Units(UnitFilter filter, RowPaging paging) => inner.Units(filter, paging);

    public RowPage<FindingRow> Findings(FindingFilter filter, RowPaging paging) =>
        inner.Findings(filter, paging);

    public ImmutableArray<RecordRow> Versions(string record) => inner.Versions(record);

    public ImmutableArray<RecordRow> OfDays(string site, DateOnly from, DateOnly until) =>
        inner.OfDays(site, from, until);

    public ImmutableArray<RecordRow> Shown(ShownFilter filter) => inner.Shown(filter);

    public AnsweredKey? Answer(SubmissionKey key) => inner.Answer(key);

    public IReadOnlyList<KeptRows> Kept(long from, long until) => inner.Kept(from, until);

    public IReadOnlyDictionary<long, string> Sites(string record) => inner.Sites(record);

    public void Put(RecordRows rows) => counted(() => inner.Put(rows));

    public void Supersede(string record, long newest) => counted(() => inner.Supersede(record, newest));

    public void Drop(string record) => counted(() => inner.Drop(record));

    public IReadOnlyList<string> RecordsMadeOf(string content) => inner.RecordsMadeOf(content);

    public void Clear(long from, long until) => counted(() => inner.Clear(from, until));

    public void Owe(Notice notice) => counted(() => inner.Owe(notice));

    public bool EndExport(string id, string turn, long rows, ContentHash digest) =>
        inner.EndExport(id, turn, rows, digest);

    public bool Settle(Notice notice) => inner.Settle(notice);

    public bool Renew(long entry, string recipient) => inner.Renew(entry, recipient);

    public void DropAnswers(string pseudonym) => counted(() => inner.DropAnswers(pseudonym));

    public void Cover(long size) => counted(() => inner.Cover(size));

    public void Keep(AnsweredKey answered) => counted(() => inner.Keep(answered));
}
