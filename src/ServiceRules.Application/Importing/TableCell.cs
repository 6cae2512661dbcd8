namespace ServiceRules.Application.Importing;

/// <summary>One cell of a table.</summary>
/// <param name="Text">What stands in it, without blanks around it; a number with a point before its decimals.</param>
/// <param name="Kind">What it is.</param>
public readonly record struct TableCell(string Text, CellKind Kind)
{
    public static TableCell Empty { get; } = new("", CellKind.Text);

    /// <summary>Whether there is nothing in it.</summary>
    public bool IsEmpty => Text.Length == 0 && Kind is CellKind.Text;
}
