using System.Collections.Immutable;

namespace ServiceRules.Formats.Imports;

/// <summary>One value of a record and where it comes from: a column, or the mapping itself.</summary>
public sealed record MappedValue
{
    /// <summary>Where it goes: names of members below the record or the item, each after a slash.</summary>
    public required string To { get; init; }

    /// <summary>The heading of the column it comes from; null where it is given.</summary>
    public string? Column { get; init; }

    /// <summary>A second column, whose text follows after a space; null: none.</summary>
    public string? And { get; init; }

    /// <summary>The value for every row, as it would stand in a cell; null where it comes from a column.</summary>
    public string? Given { get; init; }

    /// <summary>What it becomes.</summary>
    public ValueForm As { get; init; }

    /// <summary>The unit of a figure.</summary>
    public string? Unit { get; init; }

    /// <summary>Decimals that a figure of a workbook is written with; null: as many as it needs.</summary>
    public int? Decimals { get; init; }

    /// <summary>How a day or a time is written; null: as in a record.</summary>
    public string? Pattern { get; init; }

    /// <summary>The offset of times; null: they carry their own, or have none.</summary>
    public string? Offset { get; init; }

    /// <summary>What stands between the words of a list.</summary>
    public string? Between { get; init; }

    /// <summary>What each text of the cell means; empty: what it says. No other text is taken then.</summary>
    public ImmutableSortedDictionary<string, string> Words { get; init; } = NoWords;

    internal static ImmutableSortedDictionary<string, string> NoWords { get; } =
        ImmutableSortedDictionary.Create<string, string>(StringComparer.Ordinal);
}
