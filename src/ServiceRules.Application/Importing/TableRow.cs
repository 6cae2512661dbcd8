using System.Collections.Immutable;

namespace ServiceRules.Application.Importing;

/// <summary>One row of a table.</summary>
/// <param name="Number">Its number, from 1, as programs for tables count it.</param>
/// <param name="Cells">Its cells from the left; as many as there are headings.</param>
public sealed record TableRow(int Number, ImmutableArray<TableCell> Cells);
