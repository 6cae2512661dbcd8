using System.ComponentModel;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Waiving;
using ServiceRules.Formats.Registers;
using ServiceRules.Formats.Vocabulary;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Problems;
using ServiceRules.Host.Sites;
using ServiceRules.Host.Waiving;

namespace ServiceRules.Host.Apis;

/// <summary><c>/api/waivers</c>: rules that are loosened for a time, by somebody who had no hands in the job.</summary>
internal static class WaiversApi
{
    private const string Place = "/api/waivers";

    public static void MapWaivers(this IEndpointRouteBuilder routes)
    {
        routes
            .MapGet(
                Place,
                (
                    HttpContext context,
                    ServedSites sites,
                    IWaiverReading waivers,
                    [Description(SiteText.Text)] string? site
                ) =>
                    sites.Choose(Caller.Known(context.User), site, out var own)
                    ?? Conditional.Json(
                        new WaiversAnswer([
                            .. own.Registers.Waivers.Select(ToldWaiver.Of),
                            .. waivers.Of(own.Name).Select(ToldWaiver.Of),
                        ]),
                        context
                    )
            )
            .WithName("listWaivers")
            .WithTags("waivers")
            .WithSummary(
                "Waivers of the site: those of its registers and those entered here, withdrawn ones too."
            )
            .Produces<WaiversAnswer>()
            .Complains(ProblemKind.BadRequest, ProblemKind.NotAllowed);
        routes
            .MapPost(Place, EnterAsync)
            .WithName("enterWaiver")
            .WithTags("waivers")
            .WithSummary("Loosens one rule for a time: from now on jobs of its days are judged with it.")
            .WithDescription(
                "It is refused for a rule that stops, since someone could be hurt; for a rule that is waived on the same unit and days "
                    + "already; and of somebody whom the register does not let release. It is told in every finding that it touches. "
                    + "It becomes an entry of the log and an act. Stored records stay as they were judged."
            )
            .Accepts<WaiverDocument>(MediaTypes.Json)
            .Produces<ToldWaiver>(StatusCodes.Status201Created)
            .Produces<ToldWaiver>()
            .Complains(
                ProblemKind.BadRequest,
                ProblemKind.NotAllowed,
                ProblemKind.Unreadable,
                ProblemKind.Conflict,
                ProblemKind.TooLarge,
                ProblemKind.MediaType,
                ProblemKind.Refused,
                ProblemKind.Full
            );
        routes
            .MapPost(Place + "/{id}/withdrawal", Withdraw)
            .WithName("withdrawWaiver")
            .WithTags("waivers")
            .WithSummary("Ends a waiver that was entered here: nothing is judged with it any more.")
            .WithDescription(
                "reason says why, and stands in the act. Stored records stay as they were judged."
            )
            .Produces<ToldWaiver>()
            .Complains(
                ProblemKind.BadRequest,
                ProblemKind.NotAllowed,
                ProblemKind.NotFound,
                ProblemKind.Conflict,
                ProblemKind.Refused,
                ProblemKind.Full
            );
    }

    private static async Task<IResult> EnterAsync(
        HttpRequest request,
        OpenLedger ledger,
        ServedSites sites,
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

        if (
            !WaiverFormat
                .Current.Read(await RequestBody.ReadAsync(request, settings.Limits, stop))
                .TryGet(out var waiver, out var problems)
        )
        {
            return Complaint.Of(problems);
        }

        return Sender.Naming(caller, waiver.By.Text) is { } misnamed
            ? Sender.Answer(misnamed)
            : new KeepWaivers(ledger, own.Library, own.Name, sites.AreSeveral).Enter(
                own.Rules.Now().Book,
                waiver,
                caller.Name
            ) switch
            {
                WaiverOutcome.Done done => Results.Created(Place, ToldWaiver.Of(done.Waiver)),
                WaiverOutcome.Stood stood => Results.Ok(ToldWaiver.Of(stood.Waiver)),
                WaiverOutcome.Unfit unfit => Complaint.Of([.. unfit.Problems.Select(ToldProblem.Of)]),
                WaiverOutcome.Declined declined => Complaint.Of(declined.Refusal),
                _ => throw new InvalidOperationException("an unknown outcome of entering a waiver"),
            };
    }

    private static IResult Withdraw(
        HttpContext context,
        OpenLedger ledger,
        ServedSites sites,
        [Description("the waiver, as it is listed")] string id,
        [Description("why, in a sentence")] string? reason,
        [Description(SiteText.Text)] string? site
    )
    {
        var caller = Caller.Known(context.User);
        if (sites.Choose(caller, site, out var own) is { } elsewhere)
        {
            return elsewhere;
        }

        if (string.IsNullOrWhiteSpace(reason) || reason.Length > FormatLimits.Sentence)
        {
            return Complaint.Of(
                ProblemKind.Refused,
                "withdrawing a waiver says why",
                $"?reason=TEXT, of 1 to {FormatLimits.Sentence} characters"
            );
        }

        if (GivenPerson.NamedIn(reason, own.Registers) is { } named)
        {
            return named;
        }

        return ToldWaiver.NumberOf(id) is not { } number
            ? NotThere(id)
            : new KeepWaivers(ledger, own.Library, own.Name, sites.AreSeveral).Withdraw(
                number,
                reason,
                caller.Name
            ) switch
            {
                WaiverOutcome.Done done => Results.Ok(ToldWaiver.Of(done.Waiver)),
                WaiverOutcome.Stood stood => Results.Ok(ToldWaiver.Of(stood.Waiver)),
                WaiverOutcome.Unknown => NotThere(id),
                WaiverOutcome.Declined declined => Complaint.Of(declined.Refusal),
                _ => throw new InvalidOperationException("an unknown outcome of withdrawing a waiver"),
            };
    }

    private static IResult NotThere(string id) =>
        Complaint.Of(
            ProblemKind.NotFound,
            $"no waiver `{Shortened.To(id, 64)}` was entered here",
            "one that /api/waivers lists with an id"
        );
}
