using System.ComponentModel;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Problems;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Apis;

/// <summary><c>/api/judgements</c>: what judging a record comes to, with nothing stored.</summary>
internal static class JudgementsApi
{
    public static void MapJudgements(this IEndpointRouteBuilder routes) =>
        routes
            .MapPost("/api/judgements", JudgeAsync)
            .WithName("judge")
            .WithTags("judgements")
            .WithSummary("Judges a record and stores nothing.")
            .WithDescription(
                "For feedback while a record is being written, knowing what stored records show of its machine, locks and people. The "
                    + "same record, stored records, registers and rules give the same bytes to the same caller: what a finding says "
                    + "is kept back where it rests on records that whoever asks may not see."
            )
            .Accepts<ServiceRecordDocument>(MediaTypes.Json)
            .Produces<AssessmentDocument>()
            .Complains(
                ProblemKind.Unreadable,
                ProblemKind.Slow,
                ProblemKind.TooLarge,
                ProblemKind.MediaType,
                ProblemKind.Refused
            );

    private static async Task<IResult> JudgeAsync(
        HttpRequest request,
        ServedSites sites,
        OpenLedger ledger,
        ServiceSettings settings,
        [Description(SiteText.Text)] string? site,
        CancellationToken stop
    )
    {
        var caller = Caller.Known(request.HttpContext.User);
        if (sites.Choose(caller, site, out var own) is { } elsewhere)
        {
            return elsewhere;
        }

        return own.Desk.Judge(await RequestBody.ReadAsync(request, settings.Limits, stop)) switch
        {
            AssessOutcome.Judged { Assessed: var assessed } => Results.Bytes(
                SeenOthers.Assessment(caller, sites, ledger, assessed),
                MediaTypes.Json
            ),
            AssessOutcome.Refused refused => Complaint.Of(refused.Problems),
            _ => throw new InvalidOperationException("an unknown outcome of judging"),
        };
    }
}
