namespace ServiceRules.Application.Rows;

/// <summary>Which findings are asked for; what is left out keeps nothing out.</summary>
public sealed record FindingFilter
{
    /// <summary>Of which versions of records.</summary>
    public RecordFilter Of { get; init; } = new();

    public string? Rule { get; init; }

    /// <summary>Findings that speak of this unit.</summary>
    public string? Unit { get; init; }

    public string? Verdict { get; init; }

    public string? Severity { get; init; }

    public string? Effect { get; init; }
}
