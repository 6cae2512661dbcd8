using ServiceRules.Application.Ledger;

namespace ServiceRules.Application.Submitting;

/// <summary>A record as it was sent.</summary>
/// <param name="Body">The bytes.</param>
public sealed record Submission(ReadOnlyMemory<byte> Body)
{
    /// <summary>Who answers for it; null: who signed it off.</summary>
    public string? By { get; init; }

    /// <summary>Who sends it; null where no sign-in was checked.</summary>
    public KnownSender? Sender { get; init; }

    /// <summary>Who corrects what stands, and why; null: nothing is corrected.</summary>
    public Correction? Correction { get; init; }

    /// <summary>Whom it names beside its body; null: nobody.</summary>
    internal string? Named => Correction?.By ?? By;

    /// <summary>The site that it goes to, where there are several: the same for another one is something else.</summary>
    public string? Site { get; init; }

    /// <summary>
    /// Asked inside the transaction, of a filed record by its identity, before anything is told of what stands: whether that is what the
    /// sender takes it for. Null: whatever stands.
    /// </summary>
    public Func<ILedgerReading, string, bool>? Condition { get; init; }

    /// <summary>What the sender names it by; null: sent once.</summary>
    public SubmissionKey? Key { get; init; }
}
