namespace ServiceRules.Formats.Ledger;

/// <summary>How long contents are kept after the day of the job, in years; what is left out is kept for ever.</summary>
public sealed record Retention
{
    /// <summary>Kept for ever.</summary>
    public static Retention Never { get; } = new();

    public int? Records { get; init; }

    public int? Assessments { get; init; }

    public int? Reports { get; init; }
}
