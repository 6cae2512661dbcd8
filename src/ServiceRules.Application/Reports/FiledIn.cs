using System.Text;
using ServiceRules.Evidence.Log;

namespace ServiceRules.Application.Reports;

/// <summary>The log in which record and assessment of a report stand, as its proofs tell it.</summary>
/// <param name="Head">The checkpoint that both proofs lead to.</param>
/// <param name="Key">The key that came with them.</param>
/// <param name="RecordIndex">Place of the record's entry.</param>
/// <param name="AssessmentIndex">Place of the assessment's entry.</param>
public sealed record FiledIn(Checkpoint Head, NoteKey Key, long RecordIndex, long AssessmentIndex)
{
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

        if (record.Checkpoint.Head != assessment.Checkpoint.Head)
        {
            return (null, "the proofs of record and assessment lead to different checkpoints");
        }

        var head = record.Checkpoint.Head;
        return NoteKey.TryFromPem(head.Origin, proofs.LogKeyPem, out var key, out var unfit)
            ? (new FiledIn(head, key, record.Index, assessment.Index), null)
            : (null, $"{FilingProofs.LogKeyName}: {unfit}");
    }

    internal static (TlogProof? Proof, string? Fault) Parse(string name, string text) =>
        TlogProof.TryParse(Encoding.UTF8.GetBytes(text), out var proof, out var faults)
            ? (proof, null)
            : (null, $"{name}: {faults[0]}");
}
