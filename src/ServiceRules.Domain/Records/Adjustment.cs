namespace ServiceRules.Domain.Records;

/// <summary>Something was turned or moved.</summary>
public sealed record Adjustment : BenchEntry
{
    /// <summary>What was turned.</summary>
    public required AdjusterKind Adjuster { get; init; }

    /// <summary>On which side.</summary>
    public required Side Side { get; init; }

    /// <summary>Which way; absent only when the amount is not stated.</summary>
    public AdjustDirection? Direction { get; init; }

    /// <summary>How much.</summary>
    public required AdjustmentAmount Amount { get; init; }
}
