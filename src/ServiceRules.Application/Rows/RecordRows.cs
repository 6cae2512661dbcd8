using System.Collections.Immutable;

namespace ServiceRules.Application.Rows;

/// <summary>All rows of one version of a record.</summary>
public sealed record RecordRows(
    RecordRow Record,
    ImmutableArray<UnitRow> Units,
    ImmutableArray<FindingRow> Findings
)
{
    /// <summary>What it shows something of.</summary>
    public ImmutableArray<ShownRow> Shown { get; init; } = [];
}
