using System.ComponentModel;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Timeouts;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Application.Packs;
using ServiceRules.Application.RuleCases;
using ServiceRules.Formats.Json;
using ServiceRules.Formats.Packs;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Packs;
using ServiceRules.Host.Problems;
using ServiceRules.Host.Sites;
using ServiceRules.Rules.Diagnostics;
using ServiceRules.Rules.Model;

namespace ServiceRules.Host.Apis;

/// <summary><c>/api/packs</c>: the rules in force, and others that are checked and stored.</summary>
internal static class PacksApi
{
    // Longer than the work itself may take, so that this tells why it ended.
    internal static readonly TimeSpan AnswerTime = TimeSpan.FromMinutes(10);

    public static void MapPacks(this IEndpointRouteBuilder routes)
    {
        var packs = routes.MapGroup("/api/packs").WithTags("packs");
        packs
            .MapGet(
                "",
                (HttpContext context, PackDesk desk, IRulesStore store) =>
                    Conditional.Json(PacksAnswer.Of(desk.InForce, store), context)
            )
            .WithName("listPacks")
            .WithSummary(
                "The packs and limit sheets that judge here, under the digest that assessments name; those before, and those that may."
            )
            .Produces<PacksAnswer>()
            .Produces(StatusCodes.Status304NotModified)
            .Complains();
        packs
            .MapPost("/check", CheckAsync)
            .WithName("checkPacks")
            .WithSummary(
                "What is wrong with packs and limit sheets, and whether their cases come out as they say."
            )
            .WithDescription(
                "A zip archive of the packs and sheets that shall judge, all of them, as in a folder of rules. They are held against "
                    + "the registers here; those in the archive are left out, and told. Every problem comes with its file and "
                    + "pointer; with rule=ID only the cases of that rule are run. Nothing is stored, and nothing changes."
            )
            .TakesArchive<PackCheckAnswer>()
            .Complains(
                ProblemKind.BadRequest,
                ProblemKind.TooLarge,
                ProblemKind.MediaType,
                ProblemKind.Refused
            );
        packs
            .MapPost("", StoreAsync)
            .WithName("storePacks")
            .WithSummary(
                "Keeps packs and limit sheets with which nothing is wrong, so that they may be put in force."
            )
            .WithDescription(
                "The archive is checked as by checkPacks, with all its cases. What is kept stands under the digest of packs and sheets "
                    + "together: sent again, it is told and not kept twice. It judges nothing until it is put in force."
            )
            .TakesArchive<StoredPacksAnswer>()
            .Produces<StoredPacksAnswer>(StatusCodes.Status201Created)
            .Complains(ProblemKind.TooLarge, ProblemKind.MediaType, ProblemKind.Refused, ProblemKind.Full);
    }

    private static RouteHandlerBuilder TakesArchive<T>(this RouteHandlerBuilder route) =>
        route
            .WithMetadata(new RequestSizeLimitAttribute(ServiceLimits.PackBytes))
            .Accepts<byte[]>(MediaTypes.Zip)
            .Produces<T>()
            .WithMetadata(new RequestTimeoutAttribute((int)AnswerTime.TotalMilliseconds));

    private static async Task<IResult> CheckAsync(
        HttpRequest request,
        PackDesk desk,
        ServedSites sites,
        [Description("the rule whose cases alone are tested; left out: those of every rule")] string? rule,
        CancellationToken stop
    )
    {
        // What is wrong with them tells of the registers that they are held against.
        var caller = Caller.Known(request.HttpContext.User);
        if (!caller.SeesEverySite && sites.Choose(caller, null, out _) is { } ofNone)
        {
            return ofNone;
        }

        var (tried, wrong) = await TriedAsync(request, desk, sites.Of(caller), rule, _ => false, stop);
        return tried is null ? wrong!
            : rule is not null && tried.Tested!.Cases.IsEmpty
                ? Complaint.Of(
                    ProblemKind.BadRequest,
                    $"rule: there is no case of `{Shortened.To(rule, 64)}`",
                    "the identity of a rule with cases, as it stands in the files"
                )
            : Results.Json(PackCheckAnswer.Of(tried, desk.InForce.Activation.Digest));
    }

    private static async Task<IResult> StoreAsync(
        HttpRequest request,
        PackDesk desk,
        IRulesStore store,
        StoreRules storing,
        ServedSites sites,
        CancellationToken stop
    )
    {
        if (sites.OfEverySite(Caller.Known(request.HttpContext.User)) is { } notEvery)
        {
            return notEvery;
        }

        var (tried, wrong) = await TriedAsync(
            request,
            desk,
            sites.All,
            null,
            digest => store.Book(digest) is not null,
            stop
        );
        if (tried is null)
        {
            return wrong!;
        }

        if (Keep(tried, storing, Caller.Known(request.HttpContext.User), out var isNew) is { } unreadable)
        {
            return Complaint.Of(unreadable);
        }

        var answer = new StoredPacksAnswer(
            isNew,
            tried.Digest == desk.InForce.Activation.Digest,
            ToldPacks.Of(tried.Rules.Book, tried.Digest),
            tried.LeftOut
        );
        return isNew ? Results.Created("/api/packs", answer) : Results.Ok(answer);
    }

    private static async Task<(PackTried? Tried, IResult? Wrong)> TriedAsync(
        HttpRequest request,
        PackDesk desk,
        IEnumerable<ServedSite> sites,
        string? rule,
        Func<string, bool> isChecked,
        CancellationToken stop
    )
    {
        var body = await RequestBody.ReadAsync(request, MediaTypes.Zip, ServiceLimits.PackBytes, stop);
        var (tried, wrong) = await TriedAsync(body, desk, sites, rule, isChecked, stop);
        return (tried, wrong is null ? null : Complaint.Of(wrong));
    }

    /// <summary>Keeps what was tried.</summary>
    /// <returns>Why it cannot be; null when it is kept.</returns>
    internal static ProblemReport? Keep(PackTried tried, StoreRules storing, Caller caller, out bool isNew)
    {
        isNew = false;
        var book = RuleDocument.Of(tried.Rules.Book);
        if (!RulePackFormat.Book.Read(book.Bytes).TryGet(out RuleBook? _, out var unreadable))
        {
            // Together they may be more than is read at once, though each file is not.
            return unreadable;
        }

        isNew = storing.Keep(book, caller.Name);
        return null;
    }

    /// <summary>Tries an archive; else what is wrong with it.</summary>
    internal static async Task<(PackTried? Tried, ProblemDocument? Wrong)> TriedAsync(
        ReadOnlyMemory<byte> body,
        PackDesk desk,
        IEnumerable<ServedSite> sites,
        string? rule,
        Func<string, bool> isChecked,
        CancellationToken stop
    )
    {
        var sent = PackArchive.Read(body, out var unfit);
        if (!unfit.IsEmpty)
        {
            return (null, Complaint.Document([.. unfit.Select(ToldProblem.Of)]));
        }

        try
        {
            return await desk.TryAsync(sent, sites, rule, isChecked, stop) is { } tried
                ? WrongWith(tried) is { Count: > 0 } wrong
                    ? (null, Complaint.Document(wrong))
                    : (tried, null)
                : (null, OthersDocument);
        }
        catch (OperationCanceledException) when (!stop.IsCancellationRequested)
        {
            return (
                null,
                Complaint.Document(
                    ProblemKind.Refused,
                    "the cases did not come to an end in the time that they have",
                    "fewer cases, or the cases of one rule at a time with rule=ID"
                )
            );
        }
    }

    /// <summary>That others are at it.</summary>
    internal static IResult Others() => Complaint.Of(OthersDocument);

    internal static ProblemDocument OthersDocument { get; } =
        Complaint.Document(
            ProblemKind.TooMany,
            "other packs are being checked or compared; ask again in a minute"
        );

    private static List<ToldProblem> WrongWith(PackTried tried) =>
        !tried.Rules.IsSound
            ?
            [
                .. tried
                    .Rules.Diagnostics.Where(remark => remark.Level is DiagnosticLevel.Error)
                    .Select(ToldProblem.Of),
            ]
            :
            [
                .. (tried.Tested?.Cases ?? [])
                    .Where(one => one.Outcome is not CaseOutcome.AsExpected)
                    .Select(ToldProblem.Of),
                .. (tried.Tested?.Fixtures ?? []).Where(one => !one.IsReleased).Select(ToldProblem.Of),
            ];
}
