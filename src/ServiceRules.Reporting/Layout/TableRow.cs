using System.Collections.Immutable;

namespace ServiceRules.Reporting.Layout;

/// <summary>The cells of one row, with an optional ground.</summary>
public sealed record TableRow(ImmutableArray<Block> Cells, Ink? Fill = null);
