using System.Data.Common;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rows;

namespace ServiceRules.Storage.Sql;

/// <summary>How rows stand in tables: days since 1970-01-01, milliseconds since its first moment in UTC, 0 and 1.</summary>
internal static class SqlRows
{
    public const string RecordColumns =
        "r.entry_index, r.record, r.machine, r.day, r.filed_at, r.record_hash, r.site, r.area, r.tasks, r.person, r.amends, "
        + "r.newest, r.state, r.disposition, r.assessment_index, r.assessment_hash";

    public const string FindingColumns =
        "f.ordinal, f.rule, f.subject, f.unit, f.verdict, f.severity, f.effect, f.reason";

    /// <summary>That no newest version of a record tells of the unit from a later day, or later from that day.</summary>
    public const string IsLatestOfUnit = """
        NOT EXISTS (
            SELECT 1 FROM unit_row v JOIN record_row w ON w.entry_index = v.entry_index
            WHERE v.unit = u.unit AND w.newest = 1 AND COALESCE(w.site, '') = COALESCE(r.site, '')
                AND (w.day > r.day OR (w.day = r.day AND w.entry_index > r.entry_index)))
        """;

    /// <summary>How many columns a version's row has.</summary>
    public const int RecordCount = 16;

    private static readonly int Epoch = new DateOnly(1970, 1, 1).DayNumber;

    public static long Days(DateOnly day) => day.DayNumber - Epoch;

    /// <exception cref="LedgerStoreException">No calendar has such a day.</exception>
    public static DateOnly Day(long days) =>
        days >= DateOnly.MinValue.DayNumber - Epoch && days <= DateOnly.MaxValue.DayNumber - Epoch
            ? DateOnly.FromDayNumber((int)days + Epoch)
            : throw Unfit();

    public static LedgerStoreException Unfit() =>
        new(StoreTrouble.Rows, "a row of the database holds what none may hold");

    public static RecordRow Record(DbDataReader row) =>
        new(row.Number(0), row.Text(1), row.Text(2), Day(row.Number(3)), Moment(row.Number(4)), row.Text(5))
        {
            Site = row.TextOrNone(6),
            Area = row.TextOrNone(7),
            Tasks = [.. row.Text(8).Split(' ', StringSplitOptions.RemoveEmptyEntries)],
            By = row.TextOrNone(9),
            IsAmendment = row.Number(10) == 1,
            IsNewest = row.Number(11) == 1,
            State = row.Text(12),
            Disposition = row.TextOrNone(13),
            AssessmentIndex = row.NumberOrNone(14),
            AssessmentHash = row.TextOrNone(15),
        };

    public static object?[] Values(RecordRow row) =>
        [
            row.Index,
            row.Record,
            row.Machine,
            Days(row.Day),
            row.FiledAt.ToUnixTimeMilliseconds(),
            row.RecordHash,
            row.Site,
            row.Area,
            string.Join(' ', row.Tasks),
            row.By,
            row.IsAmendment ? 1L : 0L,
            row.IsNewest ? 1L : 0L,
            row.State,
            row.Disposition,
            row.AssessmentIndex,
            row.AssessmentHash,
        ];

    /// <summary>A unit, behind its version's row and the digest of that.</summary>
    public static UnitRow Unit(DbDataReader row) =>
        new(
            SqlHeldRows.Record(row),
            Ordinal(row.Number(RecordCount + 1)),
            row.Text(RecordCount + 2),
            row.Text(RecordCount + 3)
        );

    public static UnitRow Unit(RecordRow of, object?[] values) =>
        values is [_, long ordinal, string unit, string disposition]
            ? new(of, Ordinal(ordinal), unit, disposition)
            : throw Unfit();

    public static object?[] Values(UnitRow row) =>
        [row.Of.Index, (long)row.Ordinal, row.Unit, row.Disposition];

    /// <summary>A finding, behind its version's row and the digest of that.</summary>
    public static FindingRow Finding(DbDataReader row) =>
        new(
            SqlHeldRows.Record(row),
            Ordinal(row.Number(RecordCount + 1)),
            row.Text(RecordCount + 2),
            row.Text(RecordCount + 3),
            row.TextOrNone(RecordCount + 4),
            row.Text(RecordCount + 5),
            row.Text(RecordCount + 6),
            row.Text(RecordCount + 7),
            row.Text(RecordCount + 8)
        );

    public static FindingRow Finding(RecordRow of, object?[] values) =>
        values
            is [
                _,
                long ordinal,
                string rule,
                string subject,
                null
                or string,
                string verdict,
                string severity,
                string effect,
                string reason,
            ]
            ? new(of, Ordinal(ordinal), rule, subject, (string?)values[4], verdict, severity, effect, reason)
            : throw Unfit();

    public static object?[] Values(FindingRow row) =>
        [
            row.Of.Index,
            (long)row.Ordinal,
            row.Rule,
            row.Subject,
            row.Unit,
            row.Verdict,
            row.Severity,
            row.Effect,
            row.Reason,
        ];

    private static int Ordinal(long ordinal) =>
        ordinal is >= 0 and <= int.MaxValue ? (int)ordinal : throw Unfit();

    private static DateTimeOffset Moment(long milliseconds) =>
        milliseconds >= DateTimeOffset.MinValue.ToUnixTimeMilliseconds()
        && milliseconds <= DateTimeOffset.MaxValue.ToUnixTimeMilliseconds()
            ? DateTimeOffset.FromUnixTimeMilliseconds(milliseconds)
            : throw Unfit();
}
