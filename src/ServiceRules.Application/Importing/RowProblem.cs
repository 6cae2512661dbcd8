using System.Globalization;
using System.Text;

namespace ServiceRules.Application.Importing;

/// <summary>One thing that is wrong with a table, told so that its author finds it.</summary>
/// <param name="Row">The row, from 1, as programs for tables count it; 0: the file.</param>
/// <param name="Column">The heading of the column; null: the whole row.</param>
/// <param name="What">What is wrong.</param>
/// <param name="Found">What stands there; empty when nothing does.</param>
/// <param name="Accepted">What would be accepted; empty where it stands in what is wrong.</param>
public sealed record RowProblem(int Row, string? Column, string What, string Found, string Accepted)
{
    /// <summary>The letter of the column, as programs for tables name it; null: the whole row.</summary>
    public string? Letter { get; init; }

    /// <summary>Where it would stand in the record, as a JSON pointer; null: nowhere.</summary>
    public string? Pointer { get; init; }

    /// <summary>The letters of a column, from A.</summary>
    /// <param name="index">Its place, from 0.</param>
    public static string LetterOf(int index)
    {
        var letters = new StringBuilder();
        for (var rest = index + 1; rest > 0; rest = (rest - 1) / 26)
        {
            letters.Insert(0, (char)('A' + ((rest - 1) % 26)));
        }

        return letters.ToString();
    }

    public override string ToString()
    {
        var row = Row > 0 ? string.Create(CultureInfo.InvariantCulture, $"row {Row}") : "the file";
        var letter = Letter is null ? "" : $" {Letter}";
        var column = Column is null ? "" : $", column{letter} `{CellText.Shown(Column)}`";
        var place = Pointer is null ? "" : $" (for {Pointer})";
        var found = Found.Length == 0 ? "" : $"; found `{CellText.Shown(Found)}`";
        var accepted = Accepted.Length == 0 ? "" : $"; accepted: {Accepted}";
        return $"{row}{column}: {What}{place}{found}{accepted}";
    }
}
