using System.Collections.Immutable;
using ServiceRules.Application.Rows;
using ServiceRules.Application.Submitting;

namespace ServiceRules.Storage.Sql;

/// <summary>Rows asked for from any thread: each question on a connection of its own.</summary>
internal sealed class SqlStoredRows(SqlLedgerStore store) : IRowReading
{
    public long Covered => Ask(rows => rows.Covered);

    public RowPage<RecordRow> Records(RecordFilter filter, RowPaging paging) =>
        Ask(rows => rows.Records(filter, paging));

    // What is told and what it is held against are of one moment.
    public RowPage<UnitRow> Units(UnitFilter filter, RowPaging paging) =>
        store.Read((_, rows) => rows.Units(filter, paging));

    public RowPage<FindingRow> Findings(FindingFilter filter, RowPaging paging) =>
        store.Read((_, rows) => rows.Findings(filter, paging));

    public ImmutableArray<RecordRow> Versions(string record) => Ask(rows => rows.Versions(record));

    public ImmutableArray<RecordRow> OfDays(string site, DateOnly from, DateOnly until) =>
        Ask(rows => rows.OfDays(site, from, until));

    public ImmutableArray<RecordRow> Shown(ShownFilter filter) => Ask(rows => rows.Shown(filter));

    public AnsweredKey? Answer(SubmissionKey key) => Ask(rows => rows.Answer(key));

    public IReadOnlyList<KeptRows> Kept(long from, long until) =>
        store.Read((_, rows) => rows.Kept(from, until));

    private T Ask<T>(Func<SqlRowReading, T> question) =>
        store.OnConnection(connection => question(new SqlRowReading(connection)));
}
