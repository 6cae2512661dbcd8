using System.Collections.Immutable;
using ServiceRules.Formats.Imports;

namespace ServiceRules.Application.Importing;

/// <summary>What a table comes to by a mapping: its records, or why none can be told apart.</summary>
/// <param name="Records">In the order of their first rows.</param>
/// <param name="Faults">What is wrong with headings, or rows that belong to no record; then there are no records.</param>
public sealed record MappedTable(ImmutableArray<MappedRecord> Records, ImmutableArray<RowProblem> Faults)
{
    /// <summary>Makes records of a table.</summary>
    public static MappedTable Of(ImportMapping mapping, Table table)
    {
        ArgumentNullException.ThrowIfNull(mapping);
        ArgumentNullException.ThrowIfNull(table);
        var columns = new TableColumns(table);
        var faults = columns.Faults(table, mapping);
        if (!faults.IsEmpty)
        {
            return new([], faults);
        }

        if (table.Rows.IsEmpty)
        {
            return new(
                [],
                [new(table.HeadingRow, null, "no row follows the headings", "", "rows of records")]
            );
        }

        // A record whose rows are not all told apart would not be whole.
        ImmutableArray<RowProblem> loose =
        [
            .. table
                .Rows.Select(row => Loose(mapping.GroupBy, columns, row))
                .OfType<RowProblem>()
                .Take(TableLimits.ProblemsTold),
        ];
        return loose.IsEmpty ? new(Unique(Made(mapping, table, columns)), []) : new([], loose);
    }

    private static RowProblem? Loose(string heading, TableColumns columns, TableRow row)
    {
        var cell = columns.Cell(row, heading);
        return !CellReading.IsReadable(cell, out var why) ? columns.Problem(row.Number, heading, why)
            : cell.IsEmpty
                ? columns.Problem(
                    row.Number,
                    heading,
                    new("it cannot be told which record this row belongs to", "", "what its record has there")
                )
            : null;
    }

    private static ImmutableArray<MappedRecord> Made(ImportMapping mapping, Table table, TableColumns columns)
    {
        var cells = new CellReading(mapping.Table, columns, table.CountsFrom1904);
        return
        [
            .. table
                .Rows.GroupBy(row => columns.Cell(row, mapping.GroupBy).Text, StringComparer.Ordinal)
                .Select(group =>
                {
                    var rows = group.ToList();
                    var building = new RecordBuilding(mapping, columns, cells, rows[0].Number);
                    rows.ForEach(building.Add);
                    return building.Built(group.Key);
                }),
        ];
    }

    private static ImmutableArray<MappedRecord> Unique(ImmutableArray<MappedRecord> records)
    {
        var first = new Dictionary<string, MappedRecord>(StringComparer.Ordinal);
        return
        [
            .. records.Select(record =>
                record.Id is not { } id || first.TryAdd(id, record)
                    ? record
                    : record with
                    {
                        Problems =
                        [
                            .. record.Problems,
                            new(
                                record.FirstRow,
                                null,
                                $"the record that begins in row {first[id].FirstRow} has this identity too",
                                id,
                                "an identity for each record"
                            ),
                        ],
                    }
            ),
        ];
    }
}
