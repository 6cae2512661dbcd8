using ServiceRules.Application.Ledger;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Filing;
using ServiceRules.Host.Sites;
using ServiceRules.Host.Verifying;

namespace ServiceRules.Host.Pages;

/// <summary>What a record came to after a report of it was signed, as a page tells it.</summary>
/// <param name="Record">The record.</param>
/// <param name="Entry">The entry of the later assessment.</param>
/// <param name="Outcome">What it came to; null where whoever asks may not see the record.</param>
public sealed record ShownSuccessor(string Record, long Entry, string? Outcome)
{
    /// <summary>Null where the report tells the latest, or is of a period.</summary>
    internal static ShownSuccessor? Of(
        OpenLedger ledger,
        ServedSites sites,
        ToldPlace? here,
        Caller caller
    ) =>
        here is not { SupersededBy: { } newer, Record: { } record }
            ? null
            : new(
                record,
                newer,
                AccessTable.Opens("GET", "/records/{id}", caller)
                && SeenRecords.Of(ledger, record, caller, sites) is { } answer
                    ? ShownFinding.WordOfDisposition(
                        answer.Assessment is { } judged ? ToldAssessment.Of(judged.Bytes).Disposition : null
                    )
                    : null
            );
}
