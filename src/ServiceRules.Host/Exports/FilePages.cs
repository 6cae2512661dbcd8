using System.Text;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Application.Ledger;
using ServiceRules.Formats.Exports;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Pages.Forms;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Exports;

/// <summary>Signed reports of a period and lists, asked for as files and fetched when they are written.</summary>
internal static class FilePages
{
    public const string Place = "/files";

    public const string Form = "ask";
    public const string What = "what";
    public const string From = "from";
    public const string Until = "until";
    public const string Site = "site";

    private const string AskedWord = "asked";

    public static void MapFilePages(this IEndpointRouteBuilder routes)
    {
        routes
            .MapGet(
                Place,
                (HttpContext context, ExportDesk desk, ServedSites sites, OpenLedger ledger) =>
                    Shown(context, desk, sites, ledger, null)
            )
            .ExcludeFromDescription();
        routes.MapPost(Place, AskAsync).TakesForm();
    }

    private static async Task<IResult> AskAsync(
        HttpContext context,
        ExportDesk desk,
        ServedSites sites,
        OpenLedger ledger,
        CancellationToken stop
    )
    {
        var caller = Caller.Known(context.User);
        var sent = SentForm.Of(Form, await context.Request.ReadFormAsync(stop));
        if (Request(sent, SitesOf(sites, caller)) is not { } asked)
        {
            return Shown(context, desk, sites, ledger, sent);
        }

        if (ExportJobsApi.Unfit(asked, caller, sites, ledger, out var request) is { } unfit)
        {
            return unfit;
        }

        if (desk.AskOnce(request, caller) is not { } job)
        {
            sent.Refuse(
                $"{ExportDesk.MostOfOne} files are kept for this account, and no more at a time",
                "one when the first of them is removed, a day after it was asked for"
            );
            return Shown(context, desk, sites, ledger, sent);
        }

        return SeeOther.At(context, $"{Place}?{AskedWord}={job.Id}#done");
    }

    private static ExportRequest? Request(SentForm sent, List<string> sites)
    {
        if (FileChoices.WordsOf(sent.Value(What)) is not { } words)
        {
            sent.RefuseAt(What, "It is not said what is wanted; accepted: one of the list.");
            return null;
        }

        if (sent.Value(What) == FileChoices.Report)
        {
            foreach (var (field, which) in new[] { (From, "first"), (Until, "last") })
            {
                if (sent.Given(field) is null)
                {
                    sent.RefuseAt(field, $"A report is of a period; accepted: its {which} day.");
                }
            }

            if (sites.Count > 1 && sent.Given(Site) is null)
            {
                sent.RefuseAt(Site, "A report is of one site; accepted: one of the list.");
            }

            if (sent.IsRefused)
            {
                return null;
            }
        }

        var filter = new JsonObject();
        foreach (var field in new[] { From, Until, Site })
        {
            if (sent.Given(field) is { } value)
            {
                filter[field] = value;
            }
        }

        var document = new JsonObject
        {
            ["format"] = "export-request/1",
            ["what"] = words.What,
            ["as"] = words.As,
            ["filter"] = filter,
        };
        if (
            ExportRequestFormat
                .Current.Read(Encoding.UTF8.GetBytes(document.ToJsonString()))
                .TryGet(out var request, out var problems)
        )
        {
            return request;
        }

        sent.Refuse(problems.Told, From, Until, Site);
        return null;
    }

    // Empty where there is one for whoever asks.
    private static List<string> SitesOf(ServedSites sites, Caller caller) =>
        sites.Of(caller).Select(site => site.Name).ToList() is { Count: > 1 } several ? several : [];

    private static RazorComponentResult<FilesPage> Shown(
        HttpContext context,
        ExportDesk desk,
        ServedSites sites,
        OpenLedger ledger,
        SentForm? sent
    )
    {
        var caller = Caller.Known(context.User);
        var asked = context.Request.Query[AskedWord].ToString() is { Length: > 0 } id
            ? desk.Find(id, caller)
            : null;
        return new(
            new Dictionary<string, object?>(StringComparer.Ordinal)
            {
                [nameof(FilesPage.Token)] = FormToken.Of(context),
                [nameof(FilesPage.Sites)] = SitesOf(sites, caller),
                [nameof(FilesPage.Files)] = desk.Of(caller).Select(job => ShownFile.Of(job, ledger)).ToList(),
                [nameof(FilesPage.Asked)] = asked is null ? null : ShownFile.Of(asked, ledger),
                [nameof(FilesPage.Sent)] = sent,
            }
        )
        {
            StatusCode = sent is null ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity,
        };
    }
}
