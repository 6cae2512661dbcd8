namespace ServiceRules.Application.Waiving;

/// <summary>A waiver that was entered beside the registers of a site.</summary>
/// <param name="Number">Its place among all of them.</param>
/// <param name="Site">The name of the site that it counts at.</param>
/// <param name="Subject">What its entry of the log is about.</param>
/// <param name="Content">A <c>waiver/1</c> document; null: it was erased, and counts no more, or is lost.</param>
/// <param name="At">When it was entered.</param>
/// <param name="Entry">Its entry of the log.</param>
public sealed record KeptWaiver(
    long Number,
    string Site,
    string Subject,
    ReadOnlyMemory<byte>? Content,
    DateTimeOffset At,
    long Entry
)
{
    /// <summary>Whether its content is gone, or other bytes now, and no erasure removed it.</summary>
    public bool IsLost { get; init; }

    /// <summary>When it was withdrawn; null: it was not.</summary>
    public DateTimeOffset? WithdrawnAt { get; init; }

    /// <summary>The entry of the act that withdrew it.</summary>
    public long? WithdrawnBy { get; init; }
}
