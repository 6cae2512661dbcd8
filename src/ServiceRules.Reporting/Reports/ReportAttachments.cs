using System.Text;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Reports;
using ServiceRules.Reporting.Pdf;

namespace ServiceRules.Reporting.Reports;

/// <summary>
/// What a report carries: four documents, five files more when it was filed in a log, and two more about a version that
/// superseded it.
/// </summary>
internal static class ReportAttachments
{
    public static IReadOnlyCollection<Attachment> Of(EvidenceFiles evidence, FilingProofs? proofs) =>
        [
            new(
                EvidenceFiles.RecordName,
                "the service record",
                AttachmentRelation.Source,
                evidence.Record.Bytes
            ),
            new(
                EvidenceFiles.ContextName,
                "the registers it was judged with",
                AttachmentRelation.Data,
                evidence.Context.Bytes
            ),
            new(
                EvidenceFiles.RulesName,
                "rule packs and limit sheets",
                AttachmentRelation.Data,
                evidence.Rules.Bytes
            ),
            new(
                EvidenceFiles.AssessmentName,
                "findings and dispositions",
                AttachmentRelation.Data,
                evidence.Assessment.Bytes
            ),
            .. proofs is null ? [] : Filed(proofs),
        ];

    private static IEnumerable<Attachment> Filed(FilingProofs proofs) =>
        [
            new(
                FilingProofs.RecordEntryName,
                "the log entry of the record",
                AttachmentRelation.Supplement,
                proofs.RecordEntry
            ),
            Text(FilingProofs.RecordProofName, "proof that the record stands in the log", proofs.RecordProof),
            new(
                FilingProofs.AssessmentEntryName,
                "the log entry of the assessment",
                AttachmentRelation.Supplement,
                proofs.AssessmentEntry
            ),
            Text(
                FilingProofs.AssessmentProofName,
                "proof that the assessment stands in the log",
                proofs.AssessmentProof
            ),
            Text(FilingProofs.LogKeyName, "the public key of the log", proofs.LogKeyPem),
            .. proofs.Newer is { } newer ? Superseded(newer) : [],
        ];

    private static IEnumerable<Attachment> Superseded(FiledNewer newer) =>
        [
            new(
                FilingProofs.NewerEntryName,
                "the log entry of a newer version of the record",
                AttachmentRelation.Supplement,
                newer.Entry
            ),
            Text(FilingProofs.NewerProofName, "proof that the newer version stands in the log", newer.Proof),
        ];

    private static Attachment Text(string name, string description, string content) =>
        new(name, description, AttachmentRelation.Supplement, Encoding.UTF8.GetBytes(content));
}
