using System.Collections.Immutable;

namespace ServiceRules.Application.Rows;

/// <summary>The rows that stand of one place in the log, as they are: nothing of them is believed.</summary>
/// <param name="Index">The place.</param>
/// <param name="Rows">The rows; null when the version's own is missing, or holds what no row may.</param>
/// <param name="Unheld">The tables whose rows are not those that their digest was made of.</param>
public sealed record KeptRows(long Index, RecordRows? Rows, ImmutableArray<string> Unheld);
