using System.Collections.Immutable;

namespace ServiceRules.Application.Importing;

/// <summary>A table as it was read: headings, and the rows in which anything stands.</summary>
/// <param name="Headings">From the left.</param>
/// <param name="Rows">From the top.</param>
/// <param name="EmptyRows">How many rows below the headings hold nothing.</param>
public sealed record Table(ImmutableArray<string> Headings, ImmutableArray<TableRow> Rows, int EmptyRows)
{
    /// <summary>The row of the headings.</summary>
    public int HeadingRow { get; init; } = 1;

    /// <summary>Whether its days are counted from 1904 and not from 1900.</summary>
    public bool CountsFrom1904 { get; init; }
}
