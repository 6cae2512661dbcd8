using System.ComponentModel;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Application.Rejudging;
using ServiceRules.Formats.Vocabulary;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Apis;
using ServiceRules.Host.Notices;
using ServiceRules.Host.Problems;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Rejudging;

/// <summary><c>/api/packs/{digest}/rejudging</c>: the stored history, judged again by the rules in force.</summary>
internal static class RejudgingApi
{
    private const string DigestText = "the digest of the rules, as the list of packs tells it";

    public static void MapRejudging(this IEndpointRouteBuilder routes)
    {
        var packs = routes.MapGroup("/api/packs/{digest}/rejudging").WithTags("packs");
        packs
            .MapPost("", Begin)
            .WithName("rejudgeHistory")
            .WithSummary(
                "Has every stored record judged again by the packs and sheets in force, behind the answer."
            )
            .WithDescription(
                "Each is judged with the registers that it was judged with before. Where a verdict, a disposition or what to do comes out "
                    + "otherwise, a further assessment is filed; what was filed first stays. One is under way at a time: asked for "
                    + "again meanwhile it is the same. It ends when other rules are put in force. reason says why, and may be left out. "
                    + "It becomes an act."
            )
            .Produces<ToldRejudging>(StatusCodes.Status202Accepted)
            .Complains(ProblemKind.NotFound, ProblemKind.Conflict, ProblemKind.Refused, ProblemKind.Full);
        packs
            .MapGet("", Tell)
            .WithName("readRejudging")
            .WithSummary(
                "How far judging the stored history again by these packs and sheets is, or what the last time came to."
            )
            .Produces<ToldRejudging>()
            .Produces(StatusCodes.Status304NotModified)
            .Complains(ProblemKind.NotFound);
    }

    private static IResult Begin(
        HttpContext context,
        BeginRejudging beginning,
        IRejudgingStore store,
        ServedSites sites,
        NoticeBell bell,
        [Description(DigestText)] string digest,
        [Description("why, in a sentence")] string? reason
    )
    {
        var caller = Caller.Known(context.User);
        if (sites.OfEverySite(caller) is { } notEvery)
        {
            return notEvery;
        }

        if (reason is { Length: > FormatLimits.Sentence })
        {
            return Complaint.Of(
                ProblemKind.Refused,
                $"reason: it has {reason.Length} characters",
                $"1 to {FormatLimits.Sentence}, or none"
            );
        }

        if (
            reason is not null
            && GivenPerson.NamedIn(reason, sites.All.Select(site => site.Registers)) is { } named
        )
        {
            return named;
        }

        switch (beginning.Begin(digest, string.IsNullOrWhiteSpace(reason) ? null : reason, caller.Name))
        {
            case RejudgingBegun.Begun begun:
                bell.Ring();
                return Accepted(begun.Job);
            case RejudgingBegun.Running running:
                // This instance may not have looked yet.
                bell.Ring();
                return Accepted(running.Job);
            case RejudgingBegun.NotStored:
                return Complaint.Of(
                    ProblemKind.NotFound,
                    $"no packs and sheets are stored under `{Shortened.To(digest, 80)}`",
                    "the digest of those in force, which /api/packs tells"
                );
            case RejudgingBegun.NotInForce other:
                return Complaint.Of(
                    ProblemKind.Conflict,
                    "others are in force, and the history is judged by those alone",
                    other.InForce
                );
            default:
                throw new InvalidOperationException("an unknown outcome of beginning");
        }

        IResult Accepted(RejudgingJob job)
        {
            context.Response.Headers.Location = $"/api/packs/{digest}/rejudging";
            context.Response.StatusCode = StatusCodes.Status202Accepted;
            return Results.Bytes(AnswerJson.Bytes(ToldRejudging.Of(job, store), context), MediaTypes.Json);
        }
    }

    private static IResult Tell(
        HttpContext context,
        IRejudgingStore store,
        ServedSites sites,
        [Description(DigestText)] string digest
    ) =>
        sites.OfEverySite(Caller.Known(context.User)) is { } notEvery ? notEvery
        : store.Find(digest) is { } job ? Conditional.Json(ToldRejudging.Of(job, store), context)
        : Complaint.Of(
            ProblemKind.NotFound,
            $"the history was never judged again by `{Shortened.To(digest, 80)}`",
            "POST to begin it"
        );
}
