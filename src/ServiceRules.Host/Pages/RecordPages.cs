using System.Globalization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Rows;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Filing;
using ServiceRules.Host.Pages.Filed;
using ServiceRules.Host.Pages.Forms;
using ServiceRules.Host.Problems;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Pages;

/// <summary>The list of records, and one record.</summary>
internal static class RecordPages
{
    /// <summary>The word of an address that says which entry was just made.</summary>
    public const string EntryWord = "entry";

    public static void MapRecordPages(this IEndpointRouteBuilder routes)
    {
        routes.MapGet("/records", List).ExcludeFromDescription();
        routes.MapGet("/records/{id}", One).ExcludeFromDescription();
    }

    private static RazorComponentResult<RecordsPage> List(
        HttpContext context,
        OpenLedger ledger,
        string? after
    )
    {
        var asked = RecordsAsked.Of(context.Request.Query);
        var page =
            asked.Problems.Count > 0
                ? null
                : SeenRecords.Rows(
                    ledger,
                    asked.Filter,
                    new RowPaging { Beyond = RowPlace.TryParse(after, out var place) ? place : null },
                    Caller.Known(context.User)
                );
        return new(
            new Dictionary<string, object?>(StringComparer.Ordinal)
            {
                [nameof(RecordsPage.Rows)] = page is null ? [] : (IReadOnlyList<RecordRow>)page.Rows,
                [nameof(RecordsPage.Asked)] = asked,
                [nameof(RecordsPage.Next)] = page?.Next?.ToString(),
            }
        );
    }

    private static IResult One(HttpContext context, OpenLedger ledger, ServedSites sites, string id) =>
        Shown(context, ledger, sites, id, null);

    public static IResult NotFiled(string id) =>
        Complaint.Of(ProblemKind.NotFound, $"no record `{Shortened.To(id, 64)}` is filed here");

    /// <summary>The page of a record.</summary>
    /// <param name="sent">What was sent by a form of it, and refused; null: nothing.</param>
    public static IResult Shown(
        HttpContext context,
        OpenLedger ledger,
        ServedSites sites,
        string id,
        SentForm? sent
    )
    {
        var caller = Caller.Known(context.User);
        if (SeenRecords.Of(ledger, id, caller, sites) is not { } answer)
        {
            return NotFiled(id);
        }

        var site = sites.ChooseFor(caller, null, id, ledger, out var own) is null ? own : null;
        var (job, versions, desk) = ledger.Read(log =>
            (
                answer.Record is { } record ? ShownJob.Of(log, record.Bytes, answer.Assessment?.Bytes) : null,
                ShownVersion.Of(log, id, caller),
                ShownDesk.Of(log, answer, caller, site, sent is null ? EntryOf(context.Request) : null)
            )
        );
        return new RazorComponentResult<RecordPage>(
            new Dictionary<string, object?>(StringComparer.Ordinal)
            {
                [nameof(RecordPage.Id)] = id,
                [nameof(RecordPage.Disposition)] = answer.Assessment is { } judged
                    ? ToldAssessment.Of(judged.Bytes).Disposition
                    : null,
                [nameof(RecordPage.Job)] = job,
                [nameof(RecordPage.IsReportKeptBack)] = SeenOthers.AreHidden(caller, answer.Others),
                [nameof(RecordPage.CanContinue)] =
                    job is { IsOpen: true } && AccessTable.Opens("GET", "/bench", caller),
                [nameof(RecordPage.Versions)] = versions,
                [nameof(RecordPage.Findings)] = answer.Assessment is { } assessment
                    ? ShownFinding.Open(assessment.Bytes, answer.Record?.Bytes)
                    : [],
                [nameof(RecordPage.Turns)] = answer.Turned.Select(ShownTurn.Of).ToList(),
                [nameof(RecordPage.Others)] = ShownOther.Of(answer.Others),
                [nameof(RecordPage.Desk)] =
                    desk.MayComment || desk.MayHold ? desk with { Token = FormToken.Of(context) } : desk,
                [nameof(RecordPage.Sent)] = sent,
            }
        )
        {
            StatusCode = sent is null ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity,
        };
    }

    private static long? EntryOf(HttpRequest request) =>
        long.TryParse(
            request.Query[EntryWord],
            NumberStyles.None,
            CultureInfo.InvariantCulture,
            out var entry
        )
            ? entry
            : null;
}
