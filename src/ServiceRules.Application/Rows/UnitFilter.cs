namespace ServiceRules.Application.Rows;

/// <summary>Which units are asked for; what is left out keeps nothing out.</summary>
public sealed record UnitFilter
{
    /// <summary>In which versions of records.</summary>
    public RecordFilter Of { get; init; } = new();

    public string? Unit { get; init; }

    /// <summary>Whether the unit may go out, as the formats spell it.</summary>
    public string? Disposition { get; init; }

    /// <summary>Only as each unit stood at its last visit at its site.</summary>
    public bool LatestOnly { get; init; }
}
