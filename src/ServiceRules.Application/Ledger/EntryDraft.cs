using ServiceRules.Evidence;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Ledger;

/// <summary>What is to be appended; place, time and pseudonym are added when it is.</summary>
/// <param name="Kind">What it is about.</param>
/// <param name="Subject">Identity of what it is about.</param>
/// <param name="Content">The bytes that it names by digest.</param>
internal sealed record EntryDraft(EntryKind Kind, string Subject, ReadOnlyMemory<byte> Content)
{
    public ContentHash Hash { get; } = ContentHash.Of(Content.Span);

    /// <summary>The person who answers for it, by name; the entry gets the pseudonym.</summary>
    public string? Person { get; init; }

    /// <summary>Who sent it to the service; null where no sign-in was checked.</summary>
    public KnownSender? Sender { get; init; }

    public ContentHash? Of { get; init; }

    public CorrectedEntry? Corrects { get; init; }

    public string? Reason { get; init; }
}
