namespace ServiceRules.Formats.Ledger;

/// <summary>One leaf of the log. It names its content by digest; people stand in it by pseudonym only.</summary>
public sealed record LedgerEntry
{
    public required EntryKind Kind { get; init; }

    /// <summary>When it was appended, in UTC, by the appending machine's clock, to the millisecond.</summary>
    public required DateTimeOffset At { get; init; }

    /// <summary>Pseudonym of the person who answers for it; absent when nobody is named.</summary>
    public string? By { get; init; }

    /// <summary>Who sent it to the service; null where no sign-in was checked.</summary>
    public EntrySender? Sender { get; init; }

    /// <summary>What it is about: the identity of a record, an order, a waiver, a hold or a pseudonym.</summary>
    public required string Subject { get; init; }

    /// <summary>Digest of the content's bytes.</summary>
    public required string Content { get; init; }

    /// <summary>Length of the content in bytes.</summary>
    public required long ContentBytes { get; init; }

    /// <summary>Digest of what the content speaks of: an assessment's record, a report's assessment, a period's jobs.</summary>
    public string? Of { get; init; }

    /// <summary>The earlier entry that this one corrects.</summary>
    public CorrectedEntry? Corrects { get; init; }

    /// <summary>Why, in the words of the person.</summary>
    public string? Reason { get; init; }
}
