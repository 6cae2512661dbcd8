using System.Collections.Immutable;

namespace ServiceRules.Formats.Imports;

/// <summary>A list of a record whose items come from rows.</summary>
public sealed record MappedList
{
    /// <summary>Where the list is: names of members below the record or the item, each after a slash.</summary>
    public required string In { get; init; }

    /// <summary>Which rows have an item; null: those with anything in the columns of its values.</summary>
    public RowCondition? When { get; init; }

    /// <summary>Headings of columns: rows of a record that agree in them have one item; empty: each row has its own.</summary>
    public ImmutableArray<string> Key { get; init; } = [];

    /// <summary>The values of an item.</summary>
    public ImmutableArray<MappedValue> Values { get; init; } = [];

    /// <summary>Lists of an item.</summary>
    public ImmutableArray<MappedList> Lists { get; init; } = [];
}
