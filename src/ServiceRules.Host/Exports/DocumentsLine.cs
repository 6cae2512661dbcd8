using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rows;
using ServiceRules.Host.Filing;

namespace ServiceRules.Host.Exports;

/// <summary>A record and its assessment in an export; what is no longer kept is left out.</summary>
internal sealed record DocumentsLine(
    string Id,
    long Entry,
    EmbeddedRecord? Record,
    EmbeddedAssessment? Assessment
)
{
    public static DocumentsLine Of(OpenLedger ledger, RecordRow row) =>
        ledger.Read(log => new DocumentsLine(
            row.Record,
            row.Index,
            log.Sound(row.RecordHash) is { } record ? new EmbeddedRecord(record) : null,
            row.AssessmentHash is { } digest && log.Sound(digest) is { } assessment
                ? new EmbeddedAssessment(assessment)
                : null
        ));
}
