using System.Diagnostics.CodeAnalysis;
using System.Text;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Application.Ledger;

/// <summary>Checkpoints and proofs as the texts in which they are kept and handed on.</summary>
internal static class LogProofs
{
    public static string Sign(ILogSigner signer, long size, TreeHash root) =>
        SignedCheckpoint.By(signer, new Checkpoint(signer.Key.Name, size, root)).ToString();

    /// <summary>Under a head that the log had, whatever was filed since.</summary>
    public static string Inclusion(long index, IReadOnlyList<TreeHash> leaves, LedgerHead head) =>
        new TlogProof(
            index,
            MerkleTree.InclusionProof(leaves, head.Size, index),
            Signed(head.Note)
        ).ToString();

    public static string Inclusion(FiledEntry entry, IReadOnlyList<TreeHash> leaves, string note) =>
        new TlogProof(
            entry.Index,
            MerkleTree.InclusionProof(leaves, entry.Index),
            Signed(note),
            entry.Bytes.Span
        ).ToString();

    private static SignedCheckpoint Signed(string note) =>
        SignedCheckpoint.TryParse(Encoding.UTF8.GetBytes(note), out var checkpoint, out var faults)
            ? checkpoint
            : throw new InvalidOperationException(string.Join("; ", faults));

    /// <summary>Whether a note is a checkpoint of the log of this key, whoever signed it.</summary>
    public static bool SpeaksOf(string note, NoteKey key) =>
        SignedCheckpoint.TryParse(Encoding.UTF8.GetBytes(note), out var signed, out _)
        && signed.Head.Origin == key.Name;

    /// <summary>Reads a checkpoint of the log that signs with this key, and believes it only when it did.</summary>
    public static bool TryRead(
        string note,
        NoteKey key,
        [NotNullWhen(true)] out Checkpoint? checkpoint,
        [NotNullWhen(false)] out string? why
    )
    {
        checkpoint = null;
        if (!SignedCheckpoint.TryParse(Encoding.UTF8.GetBytes(note), out var signed, out var faults))
        {
            why = "it is no signed checkpoint: " + string.Join("; ", faults);
            return false;
        }

        if (signed.Head.Origin != key.Name)
        {
            why = $"it is of the log `{signed.Head.Origin}`; accepted: `{key.Name}`";
            return false;
        }

        if (!signed.IsSignedBy(key))
        {
            why = $"the log's key {key.IdText} did not sign it, or not these words";
            return false;
        }

        checkpoint = signed.Head;
        why = null;
        return true;
    }
}
