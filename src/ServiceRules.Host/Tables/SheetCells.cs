using System.Globalization;
using DocumentFormat.OpenXml.Spreadsheet;
using ServiceRules.Application.Importing;

namespace ServiceRules.Host.Tables;

/// <summary>What the cells of a sheet hold.</summary>
/// <param name="texts">Texts that cells share.</param>
/// <param name="moments">Styles that show a number as a day or a time.</param>
internal sealed class SheetCells(IReadOnlyList<string> texts, HashSet<uint> moments)
{
    // Beyond it the decimals of a binary number mean nothing.
    private const double Largest = 1e15;

    private const int ColumnsMost = 16_384;
    private const int RowsMost = 1_048_576;

    public TableCell[] Of(Row row)
    {
        List<TableCell> cells = [];
        foreach (var cell in row.Elements<Cell>())
        {
            var at = cell.CellReference?.Value is { } place ? PlaceOf(place).Column : cells.Count;
            if (at >= TableLimits.Columns)
            {
                // One beyond them says that there are too many, unless it is empty.
                if (!Of(cell).IsEmpty)
                {
                    return new TableCell[at + 1];
                }

                continue;
            }

            while (cells.Count < at)
            {
                cells.Add(TableCell.Empty);
            }

            if (at < cells.Count)
            {
                throw new FormatException("a cell stands twice");
            }

            cells.Add(Of(cell));
        }

        while (cells.Count > 0 && cells[^1].IsEmpty)
        {
            cells.RemoveAt(cells.Count - 1);
        }

        return [.. cells];
    }

    /// <summary>Row, from 1, and column, from 0, of a place such as <c>AB12</c>.</summary>
    /// <exception cref="FormatException">It is none.</exception>
    public static (int Row, int Column) PlaceOf(string place)
    {
        var letters = place.TakeWhile(char.IsAsciiLetterUpper).Count();
        var column = 0;
        foreach (var letter in place.AsSpan(0, Math.Min(letters, 4)))
        {
            column = (column * 26) + (letter - 'A' + 1);
        }

        return
            letters is > 0 and < 4
            && column <= ColumnsMost
            && int.TryParse(
                place.AsSpan(letters),
                NumberStyles.None,
                CultureInfo.InvariantCulture,
                out var row
            )
            && row is > 0 and <= RowsMost
            ? (row, column - 1)
            : throw new FormatException("this is no place of a cell");
    }

    private TableCell Of(Cell cell)
    {
        if (cell.CellFormula is { } formula)
        {
            return new("=" + formula.Text, CellKind.Formula);
        }

        var value = cell.CellValue?.Text ?? "";
        var type = cell.DataType?.Value ?? CellValues.Number;
        if (type == CellValues.Error)
        {
            return new(value, CellKind.Fault);
        }

        if (type == CellValues.Number && value.Length > 0)
        {
            return Number(value, cell.StyleIndex?.Value ?? 0);
        }

        var text =
            type == CellValues.SharedString ? Shared(value)
            : type == CellValues.InlineString && cell.InlineString is { } inline ? SheetTexts.Of(inline)
            : type == CellValues.Boolean ? (value == "1" ? "true" : "false")
            : value;
        return new(text.Trim(), CellKind.Text);
    }

    private TableCell Number(string value, uint style) =>
        double.TryParse(value, NumberStyles.Float, CultureInfo.InvariantCulture, out var number)
        && Math.Abs(number) < Largest
        && decimal.TryParse(
            number.ToString("R", CultureInfo.InvariantCulture),
            NumberStyles.Float,
            CultureInfo.InvariantCulture,
            out var exact
        )
            ? new(
                exact.ToString(CultureInfo.InvariantCulture),
                moments.Contains(style) ? CellKind.Moment : CellKind.Number
            )
            : new(value, CellKind.Text);

    private string Shared(string value) =>
        int.TryParse(value, NumberStyles.None, CultureInfo.InvariantCulture, out var at) && at < texts.Count
            ? texts[at]
            : throw new FormatException("a cell names a text that is not there");
}
