namespace ServiceRules.Application.Notices;

/// <summary>
/// That a recipient is told of an assessment, or of something that falls due: at most one for each of both. No person stands in it.
/// </summary>
/// <param name="Entry">Place of the assessment in the log; negative: the number of what falls due, see <see cref="Due"/>.</param>
/// <param name="Recipient">Name of the recipient in the settings.</param>
/// <param name="At">When it fell due.</param>
public sealed record Notice(long Entry, string Recipient, DateTimeOffset At)
{
    /// <summary>The number of what falls due; null: it is of an assessment.</summary>
    public long? Due => Entry < 0 ? -Entry : null;

    /// <summary>How often it was tried.</summary>
    public int Attempts { get; init; }

    /// <summary>What came of the last attempt that failed.</summary>
    public string? Failure { get; init; }

    public NoticeState State { get; init; }

    /// <summary>The site whose registers judged; null when nothing tells it any more.</summary>
    public string? Site { get; init; }

    /// <summary>A notice of something that falls due.</summary>
    /// <param name="number">Its number, from 1 on.</param>
    /// <param name="recipient">Name of the recipient in the settings.</param>
    /// <param name="at">When it was found.</param>
    public static Notice OfDue(long number, string recipient, DateTimeOffset at) =>
        new(-number, recipient, at);
}
