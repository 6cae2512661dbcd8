using System.Data.Common;
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

    private const int RecordCount = 16;

    private static readonly int Epoch = new DateOnly(1970, 1, 1).DayNumber;

    public static long Days(DateOnly day) => day.DayNumber - Epoch;

    public static RecordRow Record(DbDataReader row) =>
        new(
            row.Number(0),
            row.Text(1),
            row.Text(2),
            DateOnly.FromDayNumber((int)row.Number(3) + Epoch),
            DateTimeOffset.FromUnixTimeMilliseconds(row.Number(4)),
            row.Text(5)
        )
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

    public static UnitRow Unit(DbDataReader row) =>
        new(Record(row), (int)row.Number(RecordCount), row.Text(RecordCount + 1), row.Text(RecordCount + 2));

    public static object?[] Values(UnitRow row) =>
        [row.Of.Index, (long)row.Ordinal, row.Unit, row.Disposition];

    public static FindingRow Finding(DbDataReader row) =>
        new(
            Record(row),
            (int)row.Number(RecordCount),
            row.Text(RecordCount + 1),
            row.Text(RecordCount + 2),
            row.TextOrNone(RecordCount + 3),
            row.Text(RecordCount + 4),
            row.Text(RecordCount + 5),
            row.Text(RecordCount + 6),
            row.Text(RecordCount + 7)
        );

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
}
