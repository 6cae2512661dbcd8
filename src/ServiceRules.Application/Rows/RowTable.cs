using System.Collections.Immutable;

namespace ServiceRules.Application.Rows;

/// <summary>What the tables are called that rows stand in, for whoever looks after them.</summary>
public static class RowTable
{
    public const string Record = "record_row";

    public const string Unit = "unit_row";

    public const string Finding = "finding_row";

    public const string Shown = "shown_row";

    public static ImmutableArray<string> All { get; } = [Record, Unit, Finding, Shown];
}
