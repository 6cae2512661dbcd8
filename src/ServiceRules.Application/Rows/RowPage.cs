using System.Collections.Immutable;

namespace ServiceRules.Application.Rows;

/// <summary>One page of an answer.</summary>
/// <param name="Rows">Its rows.</param>
/// <param name="Next">Where the next page begins; null when this is the last.</param>
public sealed record RowPage<T>(ImmutableArray<T> Rows, RowPlace? Next);
