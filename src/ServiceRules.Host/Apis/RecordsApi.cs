using System.ComponentModel;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Submitting;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Filing;
using ServiceRules.Host.Problems;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Apis;

/// <summary><c>/api/records</c>: submitting, amending and reading service records.</summary>
internal static class RecordsApi
{
    private const string Root = "/api/records";
    private const string IdText = "the identity of the record, as the record says it";
    private const string ByText =
        "the person of the register who answers for it; left out: whom the account or key stands for, and where that is nobody, who signed it off";

    public static void MapRecords(this IEndpointRouteBuilder routes)
    {
        var records = routes.MapGroup(Root).WithTags("records");
        records
            .MapPost("", SubmitAsync)
            .WithName("submitRecord")
            .WithSummary("Judges a record and files it with its assessment.")
            .WithDescription(
                "Once this answers, record and assessment are on the disk, in the log, under a signed checkpoint. It is judged knowing "
                    + "what stored records show of its machine, locks and people; stored records that are judged otherwise in its "
                    + "light are told (alsoTurned) and get a further assessment in the same filing. The same record again adds nothing (200); an open job may be sent again further on (201); anything else under the same "
                    + "identity is a conflict, told with the first differences. With the header Idempotency-Key the same request again "
                    + "gets the same answer, whatever was filed since; answers are kept for 30 days."
            )
            .WithMetadata(new TakesKeyMetadata())
            .Accepts<ServiceRecordDocument>(MediaTypes.Json)
            .Produces<SubmissionAnswer>(StatusCodes.Status201Created)
            .Produces<SubmissionAnswer>()
            .Complains(
                ProblemKind.Unreadable,
                ProblemKind.BadRequest,
                ProblemKind.Slow,
                ProblemKind.Conflict,
                ProblemKind.UnderWay,
                ProblemKind.TooLarge,
                ProblemKind.MediaType,
                ProblemKind.Refused,
                ProblemKind.KeyReused,
                ProblemKind.Full
            );
        records
            .MapPost("/{id}/amendments", AmendAsync)
            .WithName("amendRecord")
            .WithSummary("Corrects a filed record: the earlier version stays.")
            .WithDescription(
                "With If-Match and the ETag under which the record was read, it is corrected only as long as it still reads so: of "
                    + "many who correct the same at once, one is taken, and the others are told (412). Without it whatever stands is corrected."
            )
            .WithMetadata(new TakesKeyMetadata(), new TakesIfMatchMetadata())
            .Accepts<ServiceRecordDocument>(MediaTypes.Json)
            .Produces<SubmissionAnswer>(StatusCodes.Status201Created)
            .Produces<SubmissionAnswer>()
            .Complains(
                ProblemKind.Unreadable,
                ProblemKind.BadRequest,
                ProblemKind.NotFound,
                ProblemKind.Slow,
                ProblemKind.Conflict,
                ProblemKind.UnderWay,
                ProblemKind.Changed,
                ProblemKind.TooLarge,
                ProblemKind.MediaType,
                ProblemKind.Refused,
                ProblemKind.KeyReused,
                ProblemKind.Full
            );
        records
            .MapGet("/{id}", Read)
            .WithName("readRecord")
            .WithSummary("A record as it stands, its assessment, and its versions over time.")
            .WithDescription(
                "The assessment is the latest: turned tells when and why a later record changed it, and what was filed first "
                    + "stands among the assessments of the version. Each version tells which account or key sent it, and for whom that "
                    + "stands: by pseudonym, and to whoever sees every record of the site by person as well."
            )
            .Produces<RecordAnswer>()
            .Produces(StatusCodes.Status304NotModified)
            .Complains(ProblemKind.NotFound);
    }

    private static async Task<IResult> SubmitAsync(
        HttpRequest request,
        ServedSites sites,
        OpenLedger ledger,
        ServiceSettings settings,
        [Description(ByText)] string? by,
        [Description(SiteText.Text)] string? site,
        CancellationToken stop
    )
    {
        var caller = Caller.Known(request.HttpContext.User);
        if (sites.Choose(caller, site, out var own) is { } elsewhere)
        {
            return elsewhere;
        }

        if (Sender.Naming(caller, by) is { } misnamed)
        {
            return Sender.Answer(misnamed);
        }

        if (by is not null && !GivenPerson.IsRegistered(own.Registers, by))
        {
            return GivenPerson.Unknown(by);
        }

        if (IdempotencyKey.Read(request, out var key) is { } wrong)
        {
            return wrong;
        }

        var body = await RequestBody.ReadAsync(request, settings.Limits, stop);
        if (Sender.Sending(caller, body, ledger) is { } unfit)
        {
            return Sender.Answer(unfit);
        }

        return Answer(
            await own.Desk.SubmitAsync(
                new Submission(body)
                {
                    By = Sender.By(caller, by),
                    Sender = Sender.Known(caller),
                    Key = key,
                },
                stop
            ),
            request.HttpContext,
            (ledger, sites)
        );
    }

    private static async Task<IResult> AmendAsync(
        HttpRequest request,
        ServedSites sites,
        OpenLedger ledger,
        ServiceSettings settings,
        [Description(IdText)] string id,
        [Description("the person of the register who corrects it")] string? by,
        [Description("why it is corrected, in a sentence")] string? reason,
        [Description(SiteText.Text)] string? site,
        CancellationToken stop
    )
    {
        var caller = Caller.Known(request.HttpContext.User);
        if (sites.ChooseFor(caller, site, id, ledger, out var own) is { } elsewhere)
        {
            return elsewhere;
        }

        if (Sender.Naming(caller, by) is { } misnamed)
        {
            return Sender.Answer(misnamed);
        }

        if (GivenPerson.Correction(own.Registers, by, reason, out var correction) is { } unfit)
        {
            return unfit;
        }

        if (IdempotencyKey.Read(request, out var key) is { } wrong)
        {
            return wrong;
        }

        if (IfMatch.Read(request, out var holds) is { } noTag)
        {
            return noTag;
        }

        var body = await RequestBody.ReadAsync(request, settings.Limits, stop);
        if (SentRecord.IdOf(body) is { } other && other != id)
        {
            return Complaint.Of(
                ProblemKind.Refused,
                $"the body is of `{Shortened.To(other, 64)}`, which is not the record that is to be amended",
                "the record that the address names"
            );
        }

        var outcome = await own.Desk.SubmitAsync(
            new Submission(body)
            {
                Correction = correction,
                Sender = Sender.Known(caller),
                Key = key,
                Condition = holds,
            },
            stop
        );
        return
            outcome is SubmissionOutcome.Declined
            && !SeenRecords.IsOfSites(ledger.Log, ledger.Rows, id, caller)
            ? NotFiled(id)
            : Answer(outcome, request.HttpContext, (ledger, sites));
    }

    private static IResult Read(
        HttpContext context,
        OpenLedger ledger,
        ServedSites sites,
        [Description(IdText)] string id
    ) =>
        SeenRecords.Of(ledger, id, Caller.Known(context.User), sites) is { } answer
            ? Conditional.Json(answer, context)
            : NotFiled(id);

    private static IResult NotFiled(string id) =>
        Complaint.Of(ProblemKind.NotFound, $"no record `{Shortened.To(id, 64)}` is filed here");

    private static IResult Answer(
        SubmissionOutcome? outcome,
        HttpContext context,
        (OpenLedger, ServedSites) among
    ) =>
        outcome switch
        {
            SubmissionOutcome.Stored one => Stands(one.Submission, true, context, among),
            SubmissionOutcome.Progressed one => Stands(one.Submission, true, context, among),
            SubmissionOutcome.Amended one => Stands(one.Submission, true, context, among),
            SubmissionOutcome.Stood one => Stands(one.Submission, false, context, among),
            SubmissionOutcome.Conflict conflict => Complaint.Of(conflict.Refusal),
            SubmissionOutcome.Declined declined => Complaint.Of(declined.Refusal),
            SubmissionOutcome.Changed => Complaint.Of(
                ProblemKind.Changed,
                "If-Match: the record does not read any more as it did under this tag",
                "the ETag of GET /api/records/{id}, after what was changed was looked at"
            ),
            SubmissionOutcome.OtherBody => Complaint.Of(
                ProblemKind.KeyReused,
                $"{IdempotencyKey.Header}: something else was sent with this key before",
                "a new key, or what was sent with it"
            ),
            SubmissionOutcome.Refused refused => Complaint.Of(refused.Problems),
            SubmissionOutcome.Trouble trouble => Complaint.Of(trouble.What),
            SubmissionOutcome.Broken broken => throw new BrokenLogException(broken.Fault),
            null => Complaint.Of(
                ProblemKind.UnderWay,
                $"{IdempotencyKey.Header}: the first request with this key has not ended; ask again in a moment"
            ),
            _ => throw new InvalidOperationException("an unknown outcome of submitting"),
        };

    private static IResult Stands(
        StoredSubmission stored,
        bool isNew,
        HttpContext context,
        (OpenLedger Ledger, ServedSites Sites) among
    )
    {
        var caller = Caller.Known(context.User);
        var answer = among.Ledger.Read(
            (log, rows) => SubmissionAnswer.Of(stored, isNew, SeenOthers.For(caller, among.Sites, log, rows))
        );
        var place = $"{Root}/{answer.Id}";
        context.Response.Headers.ContentLocation = place;
        return isNew ? Results.Created(place, answer) : Results.Ok(answer);
    }
}
