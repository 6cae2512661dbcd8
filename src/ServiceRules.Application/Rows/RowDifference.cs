using System.Collections.Immutable;
using System.Globalization;

namespace ServiceRules.Application.Rows;

/// <summary>One place in which rows that stand are not those that the log comes to.</summary>
/// <param name="Table">The table.</param>
/// <param name="Told">Which row and column, what it says and what it should.</param>
internal sealed record RowDifference(string Table, string Told)
{
    private const int TextMost = 60;

    private static readonly ImmutableArray<(string Column, Func<RecordRow, object?> Value)> OfRecords =
    [
        ("record", row => row.Record),
        ("machine", row => row.Machine),
        ("day", row => row.Day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)),
        ("filed_at", row => row.FiledAt.ToUnixTimeMilliseconds()),
        ("record_hash", row => row.RecordHash),
        ("site", row => row.Site),
        ("area", row => row.Area),
        ("tasks", row => string.Join(' ', row.Tasks)),
        ("person", row => row.By),
        ("amends", row => row.IsAmendment),
        ("newest", row => row.IsNewest),
        ("state", row => row.State),
        ("disposition", row => row.Disposition),
        ("assessment_index", row => row.AssessmentIndex),
        ("assessment_hash", row => row.AssessmentHash),
    ];

    private static readonly ImmutableArray<(string Column, Func<UnitRow, object?> Value)> OfUnits =
    [
        ("unit", row => row.Unit),
        ("disposition", row => row.Disposition),
    ];

    private static readonly ImmutableArray<(string Column, Func<FindingRow, object?> Value)> OfFindings =
    [
        ("rule", row => row.Rule),
        ("subject", row => row.Subject),
        ("unit", row => row.Unit),
        ("verdict", row => row.Verdict),
        ("severity", row => row.Severity),
        ("effect", row => row.Effect),
        ("reason", row => row.Reason),
    ];

    public override string ToString() => $"`{Table}`{Told}";

    /// <param name="stands">The rows as they stand.</param>
    /// <param name="due">The rows that the log and its contents come to.</param>
    public static IEnumerable<RowDifference> Between(RecordRows stands, RecordRows due) =>
        Columns(RowTable.Record, "", OfRecords, stands.Record, due.Record)
            .Concat(Rows(RowTable.Unit, OfUnits, stands.Units, due.Units, row => row.Ordinal))
            .Concat(Rows(RowTable.Finding, OfFindings, stands.Findings, due.Findings, row => row.Ordinal))
            .Concat(Shown(stands, due));

    // Those of a version that another one followed bear on nothing, and are not kept.
    private static IEnumerable<RowDifference> Shown(RecordRows stands, RecordRows due)
    {
        ImmutableArray<ShownRow> wanted = due.Record.IsNewest ? due.Shown : [];
        return wanted
            .Except(stands.Shown)
            .Select(row => new RowDifference(RowTable.Shown, $": {Named(row)} is missing"))
            .Concat(
                stands
                    .Shown.Except(wanted)
                    .Select(row => new RowDifference(RowTable.Shown, $": {Named(row)} is of nothing in it"))
            );
    }

    private static IEnumerable<RowDifference> Rows<T>(
        string table,
        ImmutableArray<(string Column, Func<T, object?> Value)> columns,
        IReadOnlyCollection<T> stands,
        IReadOnlyCollection<T> due,
        Func<T, int> ordinal
    )
    {
        var (found, wanted) = (stands.ToLookup(ordinal), due.ToLookup(ordinal));
        foreach (var at in found.Concat(wanted).Select(rows => rows.Key).Distinct().Order())
        {
            var row = string.Create(CultureInfo.InvariantCulture, $", row {at}");
            var told =
                !found.Contains(at) ? [new RowDifference(table, $"{row}: it is missing")]
                : !wanted.Contains(at)
                    ? [new RowDifference(table, $"{row}: it is of nothing in the assessment")]
                : Columns(table, row, columns, found[at].First(), wanted[at].First());
            foreach (var one in told)
            {
                yield return one;
            }
        }
    }

    private static IEnumerable<RowDifference> Columns<T>(
        string table,
        string row,
        ImmutableArray<(string Column, Func<T, object?> Value)> columns,
        T stands,
        T due
    ) =>
        columns
            .Select(column => (column.Column, Stands: column.Value(stands), Due: column.Value(due)))
            .Where(pair => !Equals(pair.Stands, pair.Due))
            .Select(pair => new RowDifference(
                table,
                $"{row}, column `{pair.Column}`: it says {Said(pair.Stands)}, the log comes to {Said(pair.Due)}"
            ));

    private static string Named(ShownRow row) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"what it shows of {row.What} {Said(row.Key)} from {row.First:yyyy-MM-dd} to {row.Last:yyyy-MM-dd}"
        );

    private static string Said(object? value) =>
        Convert.ToString(value, CultureInfo.InvariantCulture) switch
        {
            null or "" => "nothing",
            { Length: > TextMost } text => $"`{text[..TextMost]}…`",
            var text => $"`{text}`",
        };
}
