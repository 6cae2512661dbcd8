using System.ComponentModel;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Application.Keeping;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Library;
using ServiceRules.Formats.Ledger;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Filing;
using ServiceRules.Host.Problems;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Apis;

/// <summary>What is kept, what is forgotten, and what is said of records.</summary>
internal static class KeepingApi
{
    public const string Holds = "/api/holds";
    private const string ByText =
        "the person of the register who answers for it; left out: for whom the account stands";
    private const string ReasonText = "why, in a sentence";

    public static void MapKeeping(this IEndpointRouteBuilder routes)
    {
        routes
            .MapGet(
                Holds,
                (HttpContext context, OpenLedger ledger) =>
                    OfEvery(Caller.Known(context.User))
                    ?? Conditional.Json(
                        new HoldsAnswer([
                            .. ledger.Read(log => HoldsOfLog.Read(log).All).Select(HoldAnswer.Of),
                        ]),
                        context
                    )
            )
            .WithName("listHolds")
            .WithTags("keeping")
            .WithSummary("What is kept whatever falls due, lifted holds too.")
            .Produces<HoldsAnswer>()
            .Complains(ProblemKind.NotAllowed);
        Entering(
            routes.MapPost(Holds, HoldAsync),
            "addHold",
            "Keeps the records that all of what is named fits from retention and from being forgotten."
        );
        Entering(routes.MapPost(Holds + "/{id}/lift", Lift), "liftHold", "Lifts a hold.");
        Entering(
            routes.MapPost("/api/records/{id}/comments", CommentAsync),
            "commentRecord",
            "Files what is said of a record. It changes no verdict."
        );
        Entering(
            routes.MapPost("/api/people/{id}/erasure", Erase),
            "erasePerson",
            "Forgets a person: name, accounts, keys, and with contents=true every kept content that names them."
        );
    }

    private static void Entering(RouteHandlerBuilder route, string name, string summary) =>
        route
            .WithName(name)
            .WithTags("keeping")
            .WithSummary(summary)
            .Produces<EnteredAnswer>(StatusCodes.Status201Created)
            .Produces<EnteredAnswer>()
            .Complains(
                ProblemKind.Unreadable,
                ProblemKind.NotFound,
                ProblemKind.Conflict,
                ProblemKind.TooLarge,
                ProblemKind.MediaType,
                ProblemKind.Refused,
                ProblemKind.Full
            );

    private static async Task<IResult> HoldAsync(
        HttpRequest request,
        OpenLedger ledger,
        ServedSites sites,
        ServiceSettings settings,
        [Description(ByText)] string? by,
        [Description(ReasonText)] string? reason,
        [Description(SiteText.Text)] string? site,
        CancellationToken stop
    )
    {
        var caller = Caller.Known(request.HttpContext.User);
        Correction? why = null;
        return (OfEvery(caller) ?? Why(caller, sites, site, by, reason, out why)) is { } unfit ? unfit
            : !HoldFormat
                .Current.Read(await RequestBody.ReadAsync(request, settings.Limits, stop))
                .TryGet(out var scope, out var problems)
                ? Complaint.Of(problems)
            : Answer(new KeepHolds(ledger).Add(scope, why!, caller.Name));
    }

    private static IResult Lift(
        HttpContext context,
        OpenLedger ledger,
        ServedSites sites,
        [Description("the hold, as it is listed")] string id,
        [Description(ByText)] string? by,
        [Description(ReasonText)] string? reason,
        [Description(SiteText.Text)] string? site
    )
    {
        var caller = Caller.Known(context.User);
        Correction? why = null;
        return (OfEvery(caller) ?? Why(caller, sites, site, by, reason, out why)) is { } unfit ? unfit
            : ledger.Read(log => HoldsOfLog.Read(log).All).All(hold => hold.Id != id)
                ? Complaint.Of(ProblemKind.NotFound, $"there is no hold `{Shortened.To(id, 64)}`")
            : Answer(new KeepHolds(ledger).Lift(id, why!, caller.Name));
    }

    private static async Task<IResult> CommentAsync(
        HttpRequest request,
        OpenLedger ledger,
        ServedSites sites,
        ServiceSettings settings,
        [Description("the record")] string id,
        [Description(ByText)] string? by,
        [Description(SiteText.Text)] string? site,
        CancellationToken stop
    )
    {
        var caller = Caller.Known(request.HttpContext.User);
        if (sites.ChooseFor(caller, site, id, ledger, out var own) is { } elsewhere)
        {
            return elsewhere;
        }

        if (Why(caller, own.Registers, by, "a comment", out var why) is { } unfit)
        {
            return unfit;
        }

        if (
            !CommentFormat
                .Current.Read(await RequestBody.ReadAsync(request, settings.Limits, stop))
                .TryGet(out var comment, out var problems)
        )
        {
            return Complaint.Of(problems);
        }

        if (comment.Record != id)
        {
            return Complaint.Of(
                ProblemKind.Refused,
                $"the body is of `{comment.Record}`, which is not the record that the address names",
                "the record that the address names"
            );
        }

        return SeenRecords.IsSeen(ledger, id, caller)
            ? Answer(new AddComment(ledger).Add(comment, why!.By))
            : Complaint.Of(ProblemKind.NotFound, $"no record `{Shortened.To(id, 64)}` is filed here");
    }

    private static IResult Erase(
        HttpContext context,
        OpenLedger ledger,
        ServedSites sites,
        [Description("the person, as the register names them")] string id,
        [Description(ByText)] string? by,
        [Description(ReasonText)] string? reason,
        [Description("whether every kept content that names the person goes too")] bool? contents,
        [Description(SiteText.Text)] string? site
    )
    {
        var caller = Caller.Known(context.User);
        Correction? why = null;
        return (OfEvery(caller) ?? Why(caller, sites, site, by, reason, out why)) is { } unfit
            ? unfit
            : Answer(new ForgetPerson(ledger).Forget(id, why!, contents is true, caller.Name));
    }

    // A hold keeps, and an erasure removes, whatever of all sites it fits.
    public static IResult? OfEvery(Caller caller) =>
        caller.SeesEverySite
            ? null
            : Complaint.Of(
                ProblemKind.NotAllowed,
                "it is of every site, and who asks is not",
                "an account or a key of every site"
            );

    private static IResult? Why(
        Caller caller,
        ServedSites sites,
        string? site,
        string? by,
        string? reason,
        out Correction? why
    )
    {
        why = null;
        return sites.Choose(caller, site, out var own) ?? Why(caller, own.Registers, by, reason, out why);
    }

    private static IResult? Why(
        Caller caller,
        SiteRegisters site,
        string? by,
        string? reason,
        out Correction? why
    )
    {
        why = null;
        return Sender.Naming(caller, by) is { } misnamed
            ? Sender.Answer(misnamed)
            : GivenPerson.Correction(site, by ?? caller.Person, reason, out why);
    }

    private static IResult Answer(FilingOutcome outcome) =>
        outcome switch
        {
            FilingOutcome.Filed filed => Results.Json(
                new EnteredAnswer(ToldEntry.Of(filed.Entries[0].Entry), filed.Entries[0].IsNew),
                statusCode: filed.Entries[0].IsNew ? StatusCodes.Status201Created : StatusCodes.Status200OK
            ),
            FilingOutcome.Refused refused => Complaint.Of(refused.Refusal),
            FilingOutcome.Broken broken => throw new BrokenLogException(broken.Fault),
            _ => throw new InvalidOperationException("an unknown outcome of a filing"),
        };
}
