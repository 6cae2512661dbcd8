using System.Collections.Immutable;

namespace ServiceRules.Formats.Imports;

/// <summary>Which rows say something.</summary>
/// <param name="Column">The heading of a column.</param>
/// <param name="Is">The texts of which one stands there; empty: anything stands there.</param>
public sealed record RowCondition(string Column, ImmutableArray<string> Is);
