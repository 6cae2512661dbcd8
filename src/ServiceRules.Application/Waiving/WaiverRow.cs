using ServiceRules.Evidence;

namespace ServiceRules.Application.Waiving;

/// <summary>A row of the table of waivers, as it stands: nothing of it is believed.</summary>
/// <param name="Number">Its place among all of them.</param>
/// <param name="Site">The site that it is said to count at.</param>
/// <param name="Subject">What its entry of the log is said to be about.</param>
/// <param name="Content">The digest of its document.</param>
/// <param name="At">When it is said to have been entered.</param>
/// <param name="Entry">The entry that it is said to be of.</param>
public sealed record WaiverRow(
    long Number,
    string Site,
    string Subject,
    ContentHash Content,
    DateTimeOffset At,
    long Entry
)
{
    /// <summary>When it is said to have been withdrawn.</summary>
    public DateTimeOffset? WithdrawnAt { get; init; }

    /// <summary>The entry of the act that is said to have withdrawn it.</summary>
    public long? WithdrawnBy { get; init; }
}
