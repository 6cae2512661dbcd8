using System.Collections.Immutable;
using System.Data.Common;
using ServiceRules.Application.Rows;
using ServiceRules.Application.Submitting;
using ServiceRules.Evidence;

namespace ServiceRules.Storage.Sql;

/// <summary>What the database answers about records, units and findings, on one connection.</summary>
internal class SqlRowReading(DbConnection connection) : IRowReading
{
    public long Covered =>
        connection.Rows("SELECT size FROM row_cover WHERE one = 1", row => row.Number(0)).SingleOrDefault();

    public RowPage<RecordRow> Records(RecordFilter filter, RowPaging paging)
    {
        var question = new SqlQuestion(paging, null).Of(filter);
        return question.Page(
            connection,
            $"SELECT {SqlHeldRows.RecordColumns} FROM record_row r",
            SqlHeldRows.Record,
            row => new RowPlace(row.Index, 0)
        );
    }

    public RowPage<UnitRow> Units(UnitFilter filter, RowPaging paging)
    {
        ArgumentNullException.ThrowIfNull(filter);
        var question = new SqlQuestion(paging, "u.ordinal")
            .Of(filter.Of)
            .Is("u.unit", filter.Unit)
            .Is("u.disposition", filter.Disposition)
            .When(filter.LatestOnly, SqlRows.IsLatestOfUnit);
        var page = question.Page(
            connection,
            $"SELECT {SqlHeldRows.RecordColumns}, u.ordinal, u.unit, u.disposition FROM unit_row u JOIN record_row r ON r.entry_index = u.entry_index",
            SqlRows.Unit,
            row => new RowPlace(row.Of.Index, row.Ordinal)
        );
        _ = SqlHeldRows.Hold(connection, page);
        return filter.LatestOnly ? SqlLatestUnits.Hold(connection, page) : page;
    }

    public RowPage<FindingRow> Findings(FindingFilter filter, RowPaging paging)
    {
        ArgumentNullException.ThrowIfNull(filter);
        var question = new SqlQuestion(paging, "f.ordinal")
            .Of(filter.Of)
            .Is("f.rule", filter.Rule)
            .Is("f.unit", filter.Unit)
            .Is("f.verdict", filter.Verdict)
            .Is("f.severity", filter.Severity)
            .Is("f.effect", filter.Effect);
        var page = question.Page(
            connection,
            $"SELECT {SqlHeldRows.RecordColumns}, {SqlRows.FindingColumns} FROM finding_row f JOIN record_row r ON r.entry_index = f.entry_index",
            SqlRows.Finding,
            row => new RowPlace(row.Of.Index, row.Ordinal)
        );
        return SqlHeldRows.Hold(connection, page);
    }

    public ImmutableArray<RecordRow> Versions(string record) =>
        [
            .. connection.Rows(
                $"SELECT {SqlHeldRows.RecordColumns} FROM record_row r WHERE r.record = @record ORDER BY r.entry_index",
                SqlHeldRows.Record,
                ("@record", record)
            ),
        ];

    public ImmutableArray<RecordRow> OfDays(string site, DateOnly from, DateOnly until) =>
        [
            .. connection.Rows(
                SqlHeldRows.OfDays,
                SqlHeldRows.Record,
                ("@site", site),
                ("@from", SqlRows.Days(from)),
                ("@until", SqlRows.Days(until))
            ),
        ];

    public ImmutableArray<RecordRow> Shown(ShownFilter filter)
    {
        ArgumentNullException.ThrowIfNull(filter);
        return
        [
            .. filter
                .Keys.Chunk(SqlShown.KeysTogether)
                .SelectMany(keys => Shown(filter, keys))
                .DistinctBy(row => row.Index),
        ];
    }

    public AnsweredKey? Answer(SubmissionKey key)
    {
        ArgumentNullException.ThrowIfNull(key);
        return connection
            .Rows(
                """
                SELECT fingerprint, kind, record_index, assessment_index, answered_at, person FROM answered_key
                WHERE scope = @scope AND key = @key
                """,
                row => new AnsweredKey(
                    key,
                    ContentHash.TryFromBytes(row.Bytes(0), out var fingerprint) ? fingerprint : default,
                    (SubmissionKind)row.Number(1),
                    row.Number(2),
                    row.Number(3),
                    DateTimeOffset.FromUnixTimeMilliseconds(row.Number(4))
                )
                {
                    By = row.TextOrNone(5),
                },
                ("@scope", key.Scope),
                ("@key", key.Text)
            )
            .SingleOrDefault();
    }

    public IReadOnlyList<KeptRows> Kept(long from, long until) => SqlHeldRows.Kept(connection, from, until);

    private List<RecordRow> Shown(ShownFilter filter, string[] keys)
    {
        var (sql, values) = SqlShown.Question(filter, keys);
        return connection.Rows(sql, SqlHeldRows.Record, [.. values]);
    }
}
