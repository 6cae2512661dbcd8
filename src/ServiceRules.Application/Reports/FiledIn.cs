using System.Text;
using ServiceRules.Application.Ledger;
using ServiceRules.Evidence.Log;
using ServiceRules.Formats.Ledger;

namespace ServiceRules.Application.Reports;

/// <summary>The log in which record and assessment of a report stand, as its proofs tell it.</summary>
/// <param name="Head">The checkpoint that both proofs lead to.</param>
/// <param name="Key">The key that came with them.</param>
/// <param name="RecordIndex">Place of the record's entry.</param>
/// <param name="AssessmentIndex">Place of the assessment's entry.</param>
public sealed record FiledIn(Checkpoint Head, NoteKey Key, long RecordIndex, long AssessmentIndex)
{
    /// <summary>What the record's entry amends; null when it is the first of its record.</summary>
    public FiledAmendment? Amends { get; init; }

    /// <summary>Who sent the record to the service; null where no sign-in was checked.</summary>
    public EntrySender? Sender { get; init; }

    /// <summary>Place of a newer version of the record that was filed before the report, or null.</summary>
    public long? NewerIndex { get; init; }

    /// <summary>What the proofs say, or why they cannot be read. Whether they hold is another question.</summary>
    public static (FiledIn? Filed, string? Fault) Read(FilingProofs proofs)
    {
        ArgumentNullException.ThrowIfNull(proofs);
        var (record, fault) = Parse(FilingProofs.RecordProofName, proofs.RecordProof);
        if (record is null)
        {
            return (null, fault);
        }

        (var assessment, fault) = Parse(FilingProofs.AssessmentProofName, proofs.AssessmentProof);
        if (assessment is null)
        {
            return (null, fault);
        }

        TlogProof? newer = null;
        if (proofs.Newer is { } later)
        {
            (newer, fault) = Parse(FilingProofs.NewerProofName, later.Proof);
            if (newer is null)
            {
                return (null, fault);
            }
        }

        if (
            record.Checkpoint.Head != assessment.Checkpoint.Head
            || (newer is not null && newer.Checkpoint.Head != record.Checkpoint.Head)
        )
        {
            return (null, "the proofs of record and assessment lead to different checkpoints");
        }

        var head = record.Checkpoint.Head;
        return NoteKey.TryFromPem(head.Origin, proofs.LogKeyPem, out var key, out var unfit)
            ? (
                new FiledIn(head, key, record.Index, assessment.Index)
                {
                    Amends = AmendedBy(proofs.RecordEntry, record.Index),
                    Sender = SentBy(proofs.RecordEntry, record.Index),
                    NewerIndex = newer?.Index,
                },
                null
            )
            : (null, $"{FilingProofs.LogKeyName}: {unfit}");
    }

    // An entry that cannot be read is told elsewhere, by name.
    private static FiledAmendment? AmendedBy(ReadOnlyMemory<byte> leaf, long index) =>
        EntryReading.TryRead(new StoredEntry(index, leaf), out var entry, out _)
        && entry.Entry is { Corrects: { } corrects, Reason: { } reason }
            ? new FiledAmendment(corrects.Index, reason)
            : null;

    private static EntrySender? SentBy(ReadOnlyMemory<byte> leaf, long index) =>
        EntryReading.TryRead(new StoredEntry(index, leaf), out var entry, out _) ? entry.Entry.Sender : null;

    internal static (TlogProof? Proof, string? Fault) Parse(string name, string text) =>
        TlogProof.TryParse(Encoding.UTF8.GetBytes(text), out var proof, out var faults)
            ? (proof, null)
            : (null, $"{name}: {faults[0]}");
}
