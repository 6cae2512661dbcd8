using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Submitting;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Filing;
using ServiceRules.Host.Problems;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Pages;

/// <summary>The bench: a record is pasted, seen judged, and submitted.</summary>
internal static class BenchPages
{
    private const string Place = "/bench";
    private const string SubmitWord = "submit";

    public static void MapBenchPages(this IEndpointRouteBuilder routes)
    {
        routes
            .MapGet(Place, (HttpContext context, ServedSites sites) => Shown(context, sites, []))
            .ExcludeFromDescription();
        routes.MapPost(Place, AnswerAsync).TakesForm();
    }

    private static async Task<IResult> AnswerAsync(
        HttpRequest request,
        ServedSites sites,
        OpenLedger ledger,
        CancellationToken stop
    )
    {
        var form = await request.ReadFormAsync(stop);
        var text = form["record"].ToString();
        var body = Encoding.UTF8.GetBytes(text);
        var caller = Caller.Known(request.HttpContext.User);
        var site = form["site"].ToString() is { Length: > 0 } named ? named : null;
        var told =
            sites.Choose(caller, site, out var own) is not null
                ? Refused([
                    "It is not said at which site, or it is none of yours; accepted: one of the list.",
                ])
            : form["do"] != SubmitWord ? Told(own.Desk.Judge(body))
            : Sender.Sending(caller, body, ledger) is { } unfit
                ? Refused([$"{unfit.Detail}; accepted: {unfit.Accepted}"])
            : Told(await own.Desk.SubmitAsync(new Submission(body) { By = Sender.By(caller, null) }, stop));
        told[nameof(BenchPage.Text)] = text;
        told[nameof(BenchPage.Site)] = site;
        return Shown(request.HttpContext, sites, told);
    }

    private static RazorComponentResult<BenchPage> Shown(
        HttpContext context,
        ServedSites sites,
        Dictionary<string, object?> told
    )
    {
        told[nameof(BenchPage.Sites)] = sites
            .Of(Caller.Known(context.User))
            .Select(site => site.Name)
            .ToList();
        told[nameof(BenchPage.Token)] = FormToken.Of(context);
        return new(told);
    }

    private static Dictionary<string, object?> Told(AssessOutcome outcome) =>
        outcome switch
        {
            AssessOutcome.Judged judged => Judged(judged.Assessed.Evidence.Assessment.Bytes),
            AssessOutcome.Refused refused => Refused([.. refused.Problems.Lines()]),
            _ => throw new InvalidOperationException("an unknown outcome of judging"),
        };

    private static Dictionary<string, object?> Told(SubmissionOutcome? outcome) =>
        outcome switch
        {
            SubmissionOutcome.Stored one => Filed(one.Submission),
            SubmissionOutcome.Progressed one => Filed(one.Submission),
            SubmissionOutcome.Stood one => Filed(one.Submission),
            SubmissionOutcome.Refused refused => Refused([.. refused.Problems.Lines()]),
            SubmissionOutcome.Conflict conflict => Refused([conflict.Refusal.ToString()]),
            SubmissionOutcome.Declined declined => Refused([declined.Refusal.ToString()]),
            SubmissionOutcome.Trouble trouble => Refused([StoreProblem.Of(trouble.What).Detail]),
            SubmissionOutcome.Broken => Refused([StoreProblem.Broken.Detail]),
            _ => throw new InvalidOperationException("an unknown outcome of submitting"),
        };

    private static Dictionary<string, object?> Filed(StoredSubmission stored)
    {
        var told = stored.AssessmentBytes is { } bytes ? Judged(bytes) : [];
        told[nameof(BenchPage.Filed)] = stored.Record.Entry.Subject;
        told[nameof(BenchPage.Turns)] = stored
            .Turned.Select(turned => ShownTurn.Of(ToldTurn.Of(turned)))
            .ToList();
        return told;
    }

    private static Dictionary<string, object?> Judged(ReadOnlyMemory<byte> assessment) =>
        new(StringComparer.Ordinal)
        {
            [nameof(BenchPage.Outcome)] = ShownFinding.WordOfDisposition(
                ToldAssessment.Of(assessment).Disposition
            ),
            [nameof(BenchPage.Findings)] = ShownFinding.Open(assessment),
        };

    private static Dictionary<string, object?> Refused(IReadOnlyList<string> problems) =>
        new(StringComparer.Ordinal) { [nameof(BenchPage.Problems)] = problems };
}
