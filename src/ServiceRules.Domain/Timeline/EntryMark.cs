namespace ServiceRules.Domain.Timeline;

/// <summary>How an entry came about. A labelled late entry or transcription is honest and weaker, never a breach.</summary>
public enum EntryMark
{
    /// <summary>Entered when it happened.</summary>
    AtTheTime,

    /// <summary>Entered later, said so.</summary>
    LateEntry,

    /// <summary>Copied from paper, said so.</summary>
    Transcription,

    /// <summary>Captured at the time on a device without network.</summary>
    DeviceOffline,
}
