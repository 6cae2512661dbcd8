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
using ServiceRules.Host.Pages.Bench;
using ServiceRules.Host.Problems;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Pages;

/// <summary>The bench: a job is begun and filled in, or a record is pasted; seen judged, and submitted.</summary>
internal static class BenchPages
{
    private const string Place = "/bench";
    private const string SubmitWord = "submit";

    public static void MapBenchPages(this IEndpointRouteBuilder routes)
    {
        routes.MapGet(Place, Begun).ExcludeFromDescription();
        routes.MapPost(Place, AnswerAsync).TakesForm();
    }

    // With a machine and a task in the query the page has a record to fill in, and else those that there are to choose from.
    private static RazorComponentResult<BenchPage> Begun(
        HttpContext context,
        ServedSites sites,
        OpenLedger ledger,
        TimeProvider clock
    )
    {
        var query = context.Request.Query;
        var caller = Caller.Known(context.User);
        var named = query["site"].ToString() is { Length: > 0 } given ? given : null;
        var told = new Dictionary<string, object?>(StringComparer.Ordinal)
        {
            [nameof(BenchPage.Site)] = named,
        };
        if (sites.Choose(caller, named, out var own) is not null)
        {
            return Shown(context, sites, told);
        }

        var desk = new BeginDesk(ledger, own, clock.GetUtcNow());
        var choice = desk.Choices(sites.Of(caller).Skip(1).Any(), caller.Person) with
        {
            Machine = query["machine"],
            Task = query["task"],
            Procedure = query["procedure"],
            Person = caller.Person ?? query["person"],
        };
        told[nameof(BenchPage.Choice)] = choice;
        if (!string.IsNullOrEmpty(choice.Machine))
        {
            var (text, wrong) = desk.Begin(
                choice.Machine,
                choice.Task ?? "",
                choice.Procedure ?? "",
                string.IsNullOrEmpty(choice.Person) ? null : choice.Person
            );
            told[nameof(BenchPage.Problems)] = wrong is null ? [] : (IReadOnlyList<string>)[wrong];
            told[nameof(BenchPage.IsBegun)] = text is not null;
            told[nameof(BenchPage.Text)] = text ?? "";
            told[nameof(BenchPage.Groups)] = RecordFields.Of(text ?? "");
        }

        return Shown(context, sites, told);
    }

    private static async Task<IResult> AnswerAsync(
        HttpRequest request,
        ServedSites sites,
        OpenLedger ledger,
        CancellationToken stop
    )
    {
        var form = await request.ReadFormAsync(stop);
        var text = RecordFields.Apply(form["record"].ToString(), form);
        var body = Encoding.UTF8.GetBytes(text);
        var caller = Caller.Known(request.HttpContext.User);
        var site = form["site"].ToString() is { Length: > 0 } named ? named : null;
        var told =
            sites.Choose(caller, site, out var own) is not null
                ? Refused([
                    "It is not said at which site, or it is none of yours; accepted: one of the list.",
                ])
            : form["do"] != SubmitWord
                ? Told(
                    own.Desk.Judge(body),
                    assessed => SeenOthers.Assessment(caller, sites, ledger, assessed)
                )
            : Sender.Sending(caller, body, ledger) is { } unfit
                ? Refused([$"{unfit.Detail}; accepted: {unfit.Accepted}"])
            : Told(
                await own.Desk.SubmitAsync(new Submission(body) { By = Sender.By(caller, null) }, stop),
                stored =>
                    ledger.Read(
                        (log, rows) =>
                            SubmissionAnswer.Of(stored, true, SeenOthers.For(caller, sites, log, rows))
                    )
            );
        told[nameof(BenchPage.Text)] = text;
        told[nameof(BenchPage.Groups)] = RecordFields.Of(text);
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

    private static Dictionary<string, object?> Told(
        AssessOutcome outcome,
        Func<Assessed, ReadOnlyMemory<byte>> seen
    ) =>
        outcome switch
        {
            AssessOutcome.Judged judged => Judged(seen(judged.Assessed)),
            AssessOutcome.Refused refused => Refused([.. refused.Problems.Lines()]),
            _ => throw new InvalidOperationException("an unknown outcome of judging"),
        };

    private static Dictionary<string, object?> Told(
        SubmissionOutcome? outcome,
        Func<StoredSubmission, SubmissionAnswer> seen
    ) =>
        outcome switch
        {
            SubmissionOutcome.Stored one => Filed(seen(one.Submission)),
            SubmissionOutcome.Progressed one => Filed(seen(one.Submission)),
            SubmissionOutcome.Stood one => Filed(seen(one.Submission)),
            SubmissionOutcome.Refused refused => Refused([.. refused.Problems.Lines()]),
            SubmissionOutcome.Conflict conflict => Refused([conflict.Refusal.ToString()]),
            SubmissionOutcome.Declined declined => Refused([declined.Refusal.ToString()]),
            SubmissionOutcome.Trouble trouble => Refused([StoreProblem.Of(trouble.What).Detail]),
            SubmissionOutcome.Broken => Refused([StoreProblem.Broken.Detail]),
            _ => throw new InvalidOperationException("an unknown outcome of submitting"),
        };

    private static Dictionary<string, object?> Filed(SubmissionAnswer answer)
    {
        var told = answer.Assessment is { } assessment ? Judged(assessment.Bytes) : [];
        told[nameof(BenchPage.Filed)] = answer.Id;
        told[nameof(BenchPage.Turns)] = answer.AlsoTurned.Select(ShownTurn.Of).ToList();
        told[nameof(BenchPage.TurnsHidden)] = answer.AlsoTurnedHidden ?? 0;
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
