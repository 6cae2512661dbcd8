using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Application.Assessing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Submitting;
using ServiceRules.Formats.Json;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Filing;
using ServiceRules.Host.Pages.Bench;
using ServiceRules.Host.Problems;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Pages;

/// <summary>The bench: a job is begun and filled in, or a record is pasted; seen judged, and submitted.</summary>
internal static class BenchPages
{
    public const string Place = "/bench";
    private const string SubmitWord = "submit";
    private const string KeepWord = "keep";

    public static void MapBenchPages(this IEndpointRouteBuilder routes)
    {
        routes.MapGet(Place, Begun).ExcludeFromDescription();
        routes.MapPost(Place, AnswerAsync).TakesForm();
    }

    // With a machine and a task in the query the page has a record to fill in, with a record the open job, and else those that there are
    // to choose from.
    private static IResult Begun(
        HttpContext context,
        ServedSites sites,
        OpenLedger ledger,
        TimeProvider clock
    )
    {
        var query = context.Request.Query;
        if (query["record"].ToString() is { Length: > 0 } id)
        {
            return Continued(context, sites, ledger, clock, id);
        }

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
            told[nameof(BenchPage.Groups)] = RecordFields.Of(text ?? "", SheetsOf(own));
        }

        return Shown(context, sites, told);
    }

    private static IResult Continued(
        HttpContext context,
        ServedSites sites,
        OpenLedger ledger,
        TimeProvider clock,
        string id
    )
    {
        var caller = Caller.Known(context.User);
        if (SeenRecords.Of(ledger, id, caller, sites)?.Record is not { } filed)
        {
            return Complaint.Of(ProblemKind.NotFound, $"no record `{Shortened.To(id, 64)}` is filed here");
        }

        if (sites.ChooseFor(caller, null, id, ledger, out var own) is { } fault)
        {
            return fault;
        }

        var isOpen = IsOpen(filed.Bytes);
        var text = isOpen ? new BeginDesk(ledger, own, clock.GetUtcNow()).Continue(filed.Bytes) : "";
        return Shown(
            context,
            sites,
            new(StringComparer.Ordinal)
            {
                [nameof(BenchPage.Site)] = own.Name,
                [nameof(BenchPage.Continues)] = isOpen ? id : null,
                [nameof(BenchPage.Problems)] = isOpen ? [] : (IReadOnlyList<string>)[SignedOff(id)],
                [nameof(BenchPage.Text)] = text,
                [nameof(BenchPage.Groups)] = RecordFields.Of(text, SheetsOf(own)),
            }
        );
    }

    private static string[] SheetsOf(ServedSite site) =>
        [.. site.Rules.Now().Book.Sheets.Select(sheet => sheet.Id.Text)];

    private static bool IsOpen(ReadOnlyMemory<byte> filed) =>
        RecordFields.RecordOf(Encoding.UTF8.GetString(filed.Span))?.ContainsKey("signOff") is false;

    private static string SignedOff(string id) =>
        $"{id} is signed off; a shop lead corrects it by an amendment, and nobody carries on with it.";

    private static async Task<IResult> AnswerAsync(
        HttpRequest request,
        ServedSites sites,
        OpenLedger ledger,
        TimeProvider clock,
        CancellationToken stop
    )
    {
        var form = await request.ReadFormAsync(stop);
        var text = RecordFields.Apply(form["record"].ToString(), form);
        var caller = Caller.Known(request.HttpContext.User);
        var site = form["site"].ToString() is { Length: > 0 } chosen ? chosen : null;
        var isSited = sites.Choose(caller, site, out var own) is null;
        // Of a machine's first job the rules ask for readings once its units are known.
        if (isSited && RecordFields.NamesUnits(form) && RecordFields.RecordOf(text) is { } named)
        {
            text = RecordFields.Written(new BeginDesk(ledger, own, clock.GetUtcNow()).WithReadings(named));
        }

        var body = Encoding.UTF8.GetBytes(text);
        var half = form["do"] == KeepWord ? RecordFields.RecordOf(text) : null;
        var isKept = half is not null;
        if (half is not null)
        {
            // What is filed first stands first from then on.
            var filled = OpenJob.Filled(half);
            text = RecordFields.Written(OpenJob.Continued(filled, half));
            body = Encoding.UTF8.GetBytes(RecordFields.Written(filled));
        }

        var wrong = ProblemReport.None;
        var told =
            !isSited
                ? Refused([
                    "It is not said at which site, or it is none of yours; accepted: one of the list.",
                ])
            : form["do"] != SubmitWord && !isKept
                ? Told(
                    own.Desk.Judge(body),
                    assessed => SeenOthers.Assessment(caller, sites, ledger, assessed),
                    body,
                    out wrong
                )
            : Sender.Sending(caller, body, ledger) is { } unfit
                ? Refused([$"{unfit.Detail}; accepted: {unfit.Accepted}"])
            : Told(
                await own.Desk.SubmitAsync(
                    new Submission(body) { By = Sender.By(caller, null), Sender = Sender.Known(caller) },
                    stop
                ),
                caller,
                stored =>
                    ledger.Read(
                        (log, rows) =>
                            SubmissionAnswer.Of(stored, true, SeenOthers.For(caller, sites, log, rows))
                    ),
                body,
                out wrong
            );
        // The same content may have been filed before, and the job closed since.
        if (
            half?["id"]?.ToString() is { } id
            && SeenRecords.Of(ledger, id, caller, sites)?.Record is { } stands
            && !IsOpen(stands.Bytes)
        )
        {
            told = Refused([SignedOff(id)]);
        }

        told[nameof(BenchPage.Text)] = text;
        // What was kept stands elsewhere in the record than where it was sent.
        var groups = RecordFields.Of(text, SheetsOf(own), isKept ? null : form);
        if (!wrong.IsEmpty)
        {
            var at = FieldProblems.Of(groups, wrong, RecordFields.RecordOf(text), isShown: !isKept);
            groups = at.Groups;
            told[nameof(BenchPage.Problems)] = at.Others;
            told[nameof(BenchPage.IsRefused)] = true;
        }

        told[nameof(BenchPage.Groups)] = groups;
        told[nameof(BenchPage.IsKept)] = isKept && told.ContainsKey(nameof(BenchPage.Filed));
        told[nameof(BenchPage.IsSignOffLeft)] = half?["signOff"] is { } signOff && !OpenJob.HasMark(signOff);
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
        Func<Assessed, ReadOnlyMemory<byte>> seen,
        ReadOnlyMemory<byte> record,
        out ProblemReport wrong
    )
    {
        wrong = (outcome as AssessOutcome.Refused)?.Problems ?? ProblemReport.None;
        return outcome switch
        {
            AssessOutcome.Judged judged => Judged(seen(judged.Assessed), record),
            AssessOutcome.Refused => Refused([]),
            _ => throw new InvalidOperationException("an unknown outcome of judging"),
        };
    }

    private static Dictionary<string, object?> Told(
        SubmissionOutcome? outcome,
        Caller caller,
        Func<StoredSubmission, SubmissionAnswer> seen,
        ReadOnlyMemory<byte> record,
        out ProblemReport wrong
    )
    {
        wrong = (outcome as SubmissionOutcome.Refused)?.Problems ?? ProblemReport.None;
        return outcome switch
        {
            SubmissionOutcome.Stored one => Filed(seen(one.Submission), caller, record),
            SubmissionOutcome.Progressed one => Filed(seen(one.Submission), caller, record),
            SubmissionOutcome.Stood one => Filed(seen(one.Submission), caller, record),
            SubmissionOutcome.Refused => Refused([]),
            SubmissionOutcome.Conflict conflict => Refused([conflict.Refusal.ToString()]),
            SubmissionOutcome.Declined declined => Refused([declined.Refusal.ToString()]),
            SubmissionOutcome.Trouble trouble => Refused([StoreProblem.Of(trouble.What).Detail]),
            SubmissionOutcome.Broken => Refused([StoreProblem.Broken.Detail]),
            _ => throw new InvalidOperationException("an unknown outcome of submitting"),
        };
    }

    private static Dictionary<string, object?> Filed(
        SubmissionAnswer answer,
        Caller caller,
        ReadOnlyMemory<byte> record
    )
    {
        var told = answer.Assessment is { } assessment ? Judged(assessment.Bytes, record) : [];
        told[nameof(BenchPage.Filed)] = answer.Id;
        told[nameof(BenchPage.Turns)] = answer.AlsoTurned.Select(ShownTurn.Of).ToList();
        told[nameof(BenchPage.TurnsHidden)] = answer.AlsoTurnedHidden ?? 0;
        told[nameof(BenchPage.IsReportKeptBack)] = SeenOthers.AreHidden(caller, answer.Others);
        return told;
    }

    private static Dictionary<string, object?> Judged(
        ReadOnlyMemory<byte> assessment,
        ReadOnlyMemory<byte> record
    ) =>
        new(StringComparer.Ordinal)
        {
            [nameof(BenchPage.Outcome)] = ShownFinding.WordOfDisposition(
                ToldAssessment.Of(assessment).Disposition
            ),
            [nameof(BenchPage.Findings)] = ShownFinding.Open(assessment, record),
        };

    private static Dictionary<string, object?> Refused(IReadOnlyList<string> problems) =>
        new(StringComparer.Ordinal) { [nameof(BenchPage.Problems)] = problems };
}
