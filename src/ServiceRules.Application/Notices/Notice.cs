namespace ServiceRules.Application.Notices;

/// <summary>That a recipient is told of an assessment: at most one for each of both. No person stands in it.</summary>
/// <param name="Entry">Place of the assessment in the log.</param>
/// <param name="Recipient">Name of the recipient in the settings.</param>
/// <param name="At">When it fell due.</param>
public sealed record Notice(long Entry, string Recipient, DateTimeOffset At)
{
    /// <summary>How often it was tried.</summary>
    public int Attempts { get; init; }

    /// <summary>What came of the last attempt that failed.</summary>
    public string? Failure { get; init; }

    public NoticeState State { get; init; }
}
