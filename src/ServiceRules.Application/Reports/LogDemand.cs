using ServiceRules.Evidence.Log;

namespace ServiceRules.Application.Reports;

/// <summary>What whoever checks a report asks of the log that it was filed in, beyond what the report brings along.</summary>
public sealed record LogDemand
{
    public static LogDemand None { get; } = new();

    /// <summary>The log's key as its keeper gave it.</summary>
    public GivenLogKey? Key { get; init; }

    /// <summary>The proof of the report's own entry, which is given beside the report.</summary>
    public GivenReportProof? Proof { get; init; }

    /// <summary>A checkpoint that was seen elsewhere, of the same size as the report's or a later one.</summary>
    public SignedCheckpoint? Checkpoint { get; init; }

    /// <summary>The proof that the log only grew from the report's checkpoint to that one.</summary>
    public GrowthProof? Growth { get; init; }

    /// <summary>Whether a report that was not filed falls short of it.</summary>
    public bool NeedsLog => Key is not null || Proof is not null || Checkpoint is not null;
}
