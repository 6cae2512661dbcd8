namespace ServiceRules.Formats.Imports;

/// <summary>How the table is written.</summary>
/// <param name="Separator">Between the cells of a CSV file.</param>
/// <param name="Decimals">Before the decimals of figures that are text.</param>
/// <param name="HeadingRow">The row with the headings, from 1.</param>
/// <param name="Sheet">The sheet of a workbook; null: it has one.</param>
public sealed record TableLayout(CellSeparator Separator, DecimalMark Decimals, int HeadingRow, string? Sheet)
{
    /// <summary>What a mapping means that says nothing of it.</summary>
    public static TableLayout Usual { get; } = new(CellSeparator.Comma, DecimalMark.Point, 1, null);
}
