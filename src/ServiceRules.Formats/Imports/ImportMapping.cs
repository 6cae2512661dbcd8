using System.Collections.Immutable;

namespace ServiceRules.Formats.Imports;

/// <summary>Which column of a table goes to which place of service records.</summary>
public sealed record ImportMapping
{
    /// <summary>How the table is written.</summary>
    public TableLayout Table { get; init; } = TableLayout.Usual;

    /// <summary>The heading of the column by which rows belong to one record.</summary>
    public required string GroupBy { get; init; }

    /// <summary>Values of the record itself: all its rows say the same, or nothing.</summary>
    public ImmutableArray<MappedValue> Record { get; init; } = [];

    /// <summary>Lists of the record.</summary>
    public ImmutableArray<MappedList> Lists { get; init; } = [];

    /// <summary>Headings of columns that are not brought in.</summary>
    public ImmutableArray<string> LeftOut { get; init; } = [];

    /// <summary>Every column that something is taken from, each once.</summary>
    public IEnumerable<string> Columns =>
        Record
            .SelectMany(ColumnsOf)
            .Concat(Lists.SelectMany(ColumnsOf))
            .Prepend(GroupBy)
            .Distinct(StringComparer.Ordinal);

    private static IEnumerable<string> ColumnsOf(MappedList list) =>
        list
            .Key.Concat(list.When is { Column: var column } ? [column] : [])
            .Concat(list.Values.SelectMany(ColumnsOf))
            .Concat(list.Lists.SelectMany(ColumnsOf));

    private static IEnumerable<string> ColumnsOf(MappedValue value) =>
        new[] { value.Column, value.And }.OfType<string>();
}
