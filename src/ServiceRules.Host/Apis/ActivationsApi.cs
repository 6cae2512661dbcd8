using System.ComponentModel;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Application.Packs;
using ServiceRules.Formats.Vocabulary;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Packs;
using ServiceRules.Host.Problems;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Apis;

/// <summary><c>/api/packs/{digest}</c>: what stored packs and sheets would turn, and putting them in force.</summary>
internal static class ActivationsApi
{
    private const string DigestText = "the digest of the rules, as the list of packs tells it";

    private const int NewestUsual = 100;
    private const int NewestMost = 1_000;

    private static readonly TimeSpan AnswerTime = TimeSpan.FromMinutes(10);

    public static void MapActivations(this IEndpointRouteBuilder routes)
    {
        var packs = routes.MapGroup("/api/packs/{digest}").WithTags("packs");
        packs
            .MapPost("/comparison", CompareAsync)
            .WithName("comparePacks")
            .WithSummary(
                "What the newest stored records would come to by stored packs and sheets, and why. Nothing changes."
            )
            .WithDescription(
                "Each is judged by what is in force and by the others, with the registers of today. newest is how many, 100 if it "
                    + "is left out, at most 1000. A verdict that turns comes with its cause: the kind of change that, made alone, "
                    + "turns it."
            )
            .Produces<ComparisonAnswer>()
            .Complains(ProblemKind.BadRequest, ProblemKind.NotFound, ProblemKind.Refused)
            .WithRequestTimeout(AnswerTime);
        packs
            .MapPost("/activation", Activate)
            .WithName("activatePacks")
            .WithSummary(
                "Puts stored packs and sheets in force: from now on submissions are judged by them, at every instance."
            )
            .WithDescription(
                "reason says why, by who answers for it: somebody in the register of the site, and whom the account stands for where it "
                    + "does. It becomes an entry of the log and an act. Earlier ones stay known; going back is putting "
                    + "them in force again. A submission under way is judged anew by them. Stored records stay as "
                    + "they were judged."
            )
            .Produces<ToldActivation>()
            .Produces<ToldActivation>(StatusCodes.Status201Created)
            .Complains(ProblemKind.NotFound, ProblemKind.Conflict, ProblemKind.Refused, ProblemKind.Full);
    }

    private static async Task<IResult> CompareAsync(
        HttpContext context,
        PackDesk desk,
        ActiveRules rules,
        ServedSites sites,
        [Description(DigestText)] string digest,
        [Description("how many of the newest records are compared")] int? newest,
        [Description(SiteText.Text)] string? site,
        CancellationToken stop
    )
    {
        if (sites.Choose(Caller.Known(context.User), site, out var own) is { } elsewhere)
        {
            return elsewhere;
        }

        if (newest is < 1 or > NewestMost)
        {
            return Complaint.Of(
                ProblemKind.BadRequest,
                $"newest: {newest} records are not compared at once",
                $"1 to {NewestMost}"
            );
        }

        if (rules.Find(digest) is not { } others)
        {
            return NotStored(digest);
        }

        try
        {
            var from = desk.InForce.Activation.Digest;
            return
                await desk.CompareAsync(
                    others,
                    own.Rules.Now().Site,
                    sites.AreSeveral,
                    newest ?? NewestUsual,
                    stop
                )
                    is { } compared
                ? Results.Json(ComparisonAnswer.Of(from, digest, compared))
                : PacksApi.Others();
        }
        catch (OperationCanceledException) when (!stop.IsCancellationRequested)
        {
            return Complaint.Of(
                ProblemKind.Refused,
                "comparing did not come to an end in the time that it has",
                "fewer records: newest=N"
            );
        }
    }

    private static IResult Activate(
        HttpContext context,
        ActivateRules activating,
        ServedSites sites,
        [Description(DigestText)] string digest,
        [Description("the person of the register who puts them in force")] string? by,
        [Description("why, in a sentence")] string? reason
    )
    {
        var caller = Caller.Known(context.User);
        if (sites.OfEverySite(caller) is { } notEvery)
        {
            return notEvery;
        }

        if (Sender.Naming(caller, by) is { } misnamed)
        {
            return Sender.Answer(misnamed);
        }

        var person = by ?? caller.Person;
        if (person is null || string.IsNullOrWhiteSpace(reason))
        {
            return Complaint.Of(
                ProblemKind.Refused,
                "putting rules in force says who answers for it, and why",
                "?by=PERSON&reason=TEXT"
            );
        }

        if (!sites.All.Any(site => GivenPerson.IsRegistered(site.Registers, person)))
        {
            return GivenPerson.Unknown(person);
        }

        if (reason.Length > FormatLimits.Sentence)
        {
            return Complaint.Of(
                ProblemKind.Refused,
                $"reason: it has {reason.Length} characters",
                $"1 to {FormatLimits.Sentence}"
            );
        }

        if (GivenPerson.NamedIn(reason, sites.All.Select(site => site.Registers)) is { } named)
        {
            return named;
        }

        return activating.Activate(digest, person, reason, caller.Name) switch
        {
            ActivationOutcome.Activated one => Results.Created(
                "/api/packs",
                ToldActivation.Of(one.Activation)
            ),
            ActivationOutcome.Stood one => Results.Ok(ToldActivation.Of(one.Activation)),
            ActivationOutcome.NotStored => NotStored(digest),
            ActivationOutcome.NotRead => Complaint.Of(
                ProblemKind.Refused,
                "these were stored by another version, whose words this one does not read",
                "the same packs and sheets, stored again"
            ),
            ActivationOutcome.Declined declined => Complaint.Of(declined.Refusal),
            _ => throw new InvalidOperationException("an unknown outcome of putting rules in force"),
        };
    }

    private static IResult NotStored(string digest) =>
        Complaint.Of(
            ProblemKind.NotFound,
            $"no packs and sheets are stored under `{Shortened.To(digest, 80)}`",
            "a digest that /api/packs lists"
        );
}
