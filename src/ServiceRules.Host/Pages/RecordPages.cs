using System.Globalization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rows;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Filing;
using ServiceRules.Host.Problems;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Pages;

/// <summary>The list of records, and one record.</summary>
internal static class RecordPages
{
    public static void MapRecordPages(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/records", List).ExcludeFromDescription();
        routes.MapGet("/records/{id}", One).ExcludeFromDescription();
    }

    private static RazorComponentResult<RecordsPage> List(
        HttpContext context,
        OpenLedger ledger,
        string? machine,
        string? disposition,
        string? after
    )
    {
        var page = SeenRecords.Rows(
            ledger,
            new RecordFilter
            {
                Machine = string.IsNullOrEmpty(machine) ? null : machine,
                Disposition = string.IsNullOrEmpty(disposition) ? null : disposition,
            },
            new RowPaging { Beyond = RowPlace.TryParse(after, out var place) ? place : null },
            Caller.Known(context.User)
        );
        return new(
            new Dictionary<string, object?>(StringComparer.Ordinal)
            {
                [nameof(RecordsPage.Rows)] = page.Rows,
                [nameof(RecordsPage.Machine)] = machine ?? "",
                [nameof(RecordsPage.Disposition)] = disposition ?? "",
                [nameof(RecordsPage.Next)] = page.Next?.ToString(),
            }
        );
    }

    private static IResult One(HttpContext context, OpenLedger ledger, ServedSites sites, string id)
    {
        if (SeenRecords.Of(ledger, id, Caller.Known(context.User), sites) is not { } answer)
        {
            return Complaint.Of(ProblemKind.NotFound, $"no record `{Shortened.To(id, 64)}` is filed here");
        }

        return new RazorComponentResult<RecordPage>(
            new Dictionary<string, object?>(StringComparer.Ordinal)
            {
                [nameof(RecordPage.Id)] = id,
                [nameof(RecordPage.Disposition)] = answer.Assessment is { } judged
                    ? ToldAssessment.Of(judged.Bytes).Disposition
                    : null,
                [nameof(RecordPage.Findings)] = answer.Assessment is { } assessment
                    ? ShownFinding.Open(assessment.Bytes)
                    : [],
                [nameof(RecordPage.Turns)] = answer.Turned.Select(ShownTurn.Of).ToList(),
                [nameof(RecordPage.Comments)] = answer.Comments.Select(Line).ToList(),
                [nameof(RecordPage.Others)] = ShownOther.Of(answer.Others),
                [nameof(RecordPage.Timeline)] = answer.Record is { } record
                    ? ShownEvent.Of(record.Bytes)
                    : [],
            }
        );
    }

    private static string Line(ToldComment comment) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"{comment.Entry.At.UtcDateTime:yyyy-MM-dd HH:mm} UTC, {comment.Entry.By}, entry {comment.Entry.Index}: {comment.Text ?? "no longer kept"}"
        );
}
