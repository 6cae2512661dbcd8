namespace ServiceRules.Application.Rejudging;

/// <summary>That the stored history is judged again by the rules in force.</summary>
/// <param name="Number">Its place among all.</param>
/// <param name="Digest">Names the packs and sheets that judge.</param>
/// <param name="By">Who began it, as acts name it.</param>
/// <param name="BegunAt">When.</param>
public sealed record RejudgingJob(long Number, string Digest, string By, DateTimeOffset BegunAt)
{
    public string? Reason { get; init; }

    public RejudgingState State { get; init; }

    /// <summary>The records that were stored when it began, each by its newest version.</summary>
    public long Records { get; init; }

    /// <summary>What came of those that were looked at so far.</summary>
    public RejudgingCounts Counts { get; init; } = new(0, 0, 0, 0);

    /// <summary>When it was done, or ended.</summary>
    public DateTimeOffset? EndedAt { get; init; }

    /// <summary>Why the entries of its assessments say that there is another one.</summary>
    public static string ReasonOf(string digest) => $"judged again by rules {digest}";
}
