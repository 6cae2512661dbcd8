namespace ServiceRules.Application.Reports;

/// <summary>
/// What a report carries so that a stranger can see that its record and its assessment stand in the log: the entries
/// as they were logged, the proof of each under one signed checkpoint, and the key that signed the checkpoint.
/// </summary>
/// <param name="RecordEntry">The bytes of the leaf that names the record.</param>
/// <param name="RecordProof">The offline proof of that leaf, as text, with the signed checkpoint.</param>
/// <param name="AssessmentEntry">The bytes of the leaf that names the assessment.</param>
/// <param name="AssessmentProof">The offline proof of that leaf under the same checkpoint.</param>
/// <param name="LogKeyPem">The public key of the log, SubjectPublicKeyInfo in PEM.</param>
public sealed record FilingProofs(
    ReadOnlyMemory<byte> RecordEntry,
    string RecordProof,
    ReadOnlyMemory<byte> AssessmentEntry,
    string AssessmentProof,
    string LogKeyPem
)
{
    public const string RecordEntryName = "record-entry.json";
    public const string RecordProofName = "record.proof";
    public const string AssessmentEntryName = "assessment-entry.json";
    public const string AssessmentProofName = "assessment.proof";
    public const string LogKeyName = "log-key.pem";
    public const string NewerEntryName = "newer-entry.json";
    public const string NewerProofName = "newer.proof";

    /// <summary>The newest version of the record, where it is another one than this report is about; else null.</summary>
    public FiledNewer? Newer { get; init; }
}
