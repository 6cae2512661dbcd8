using System.Collections.Immutable;
using ServiceRules.Application.Importing;

namespace ServiceRules.Host.Tables;

/// <summary>Puts a table together from its rows, within the limits.</summary>
/// <param name="headingRow">The row of the headings, from 1.</param>
internal sealed class TableBuilding(int headingRow)
{
    private readonly List<(int Number, TableCell[] Cells)> rows = [];
    private readonly List<RowProblem> problems = [];
    private TableCell[]? headings;
    private int width;
    private long cellCount;
    private int emptyRows;

    /// <summary>How many columns the headings have.</summary>
    public int? HeadingWidth => headings?.Length;

    public void Fault(int row, string what, string found, string accepted)
    {
        if (problems.Count < TableLimits.ProblemsTold)
        {
            problems.Add(new(row, null, what, found, accepted));
        }
    }

    /// <summary>Takes the next row; the answer is false where the table is larger than any.</summary>
    public bool Add(int number, TableCell[] cells)
    {
        if (number < headingRow)
        {
            return true;
        }

        if (cells.Length > TableLimits.Columns)
        {
            Fault(number, "the row has too many columns", "", $"at most {TableLimits.Columns}");
            return false;
        }

        if (Array.Find(cells, cell => cell.Text.Length > TableLimits.CellCharacters) is { Text: { } text })
        {
            Fault(
                number,
                "a cell holds too much; in CSV a quotation mark may be missing where one should end",
                text,
                $"at most {TableLimits.CellCharacters} characters"
            );
            return false;
        }

        width = Math.Max(width, cells.Length);
        if (number == headingRow)
        {
            headings = cells;
            return true;
        }

        if (Array.TrueForAll(cells, cell => cell.IsEmpty))
        {
            emptyRows++;
            return true;
        }

        cellCount += cells.Length;
        if (rows.Count == TableLimits.Rows || cellCount > TableLimits.Cells)
        {
            Fault(
                number,
                "the table is longer than any that is read at once",
                "",
                $"at most {TableLimits.Rows} rows and {TableLimits.Cells} cells; the rows of one record in one file"
            );
            return false;
        }

        rows.Add((number, cells));
        return true;
    }

    /// <summary>Changes what cells of a rectangle are, where they stand at the headings or below.</summary>
    public bool TryMark(Range rows, Range columns, CellKind kind)
    {
        width = Math.Max(width, Math.Min(columns.End.Value, TableLimits.Columns));
        if (headingRow >= rows.Start.Value && headingRow < rows.End.Value)
        {
            Fault(
                headingRow,
                "headings are merged, so that it cannot be told which column is which",
                "",
                "a heading in a cell of its own for each column"
            );
            return true;
        }

        for (var at = 0; at < this.rows.Count; at++)
        {
            var (number, cells) = this.rows[at];
            if (number < rows.Start.Value || number >= rows.End.Value)
            {
                continue;
            }

            var wide = Wide(cells, Math.Min(columns.End.Value, TableLimits.Columns));
            this.rows[at] = (number, wide);
            for (
                var column = columns.Start.Value;
                column < Math.Min(columns.End.Value, wide.Length);
                column++
            )
            {
                if (++cellCount > TableLimits.Cells)
                {
                    return false;
                }

                wide[column] = wide[column] with { Kind = kind };
            }
        }

        return true;
    }

    public TableOutcome Built(bool countsFrom1904 = false)
    {
        if (headings is null && problems.Count == 0)
        {
            return new TableOutcome.Refused(
                $"there is no row {headingRow}, which is to hold the headings",
                "a row of headings"
            );
        }

        foreach (var cell in headings ?? [])
        {
            if (cell.Kind is not (CellKind.Text or CellKind.Number))
            {
                Fault(headingRow, "a heading is computed", cell.Text, "a text");
            }
        }

        return problems.Count > 0
            ? new TableOutcome.Refused([.. problems])
            : new TableOutcome.Read(
                new Table(
                    [.. Wide(headings!, width).Select(cell => cell.Text)],
                    [
                        .. rows.Select(row => new TableRow(
                            row.Number,
                            ImmutableArray.Create(Wide(row.Cells, width))
                        )),
                    ],
                    emptyRows
                )
                {
                    HeadingRow = headingRow,
                    CountsFrom1904 = countsFrom1904,
                }
            );
    }

    private static TableCell[] Wide(TableCell[] cells, int width)
    {
        if (cells.Length >= width)
        {
            return cells;
        }

        var wide = new TableCell[width];
        cells.CopyTo(wide, 0);
        Array.Fill(wide, TableCell.Empty, cells.Length, width - cells.Length);
        return wide;
    }
}
