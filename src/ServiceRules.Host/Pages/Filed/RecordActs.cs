using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Application.Keeping;
using ServiceRules.Application.Ledger;
using ServiceRules.Formats.Ledger;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Apis;
using ServiceRules.Host.Pages.Forms;
using ServiceRules.Host.Problems;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Pages.Filed;

/// <summary>What is said and held of a record, by the forms of its page.</summary>
internal static class RecordActs
{
    public const string Comments = "/records/{id}/comments";
    public const string Holds = "/records/{id}/holds";
    public const string Lifts = Holds + "/{hold}/lift";

    public const string CommentForm = "comment";
    public const string Text = "text";

    public static void MapRecordActs(this IEndpointRouteBuilder routes)
    {
        routes.MapPost(Comments, CommentAsync).TakesForm();
        routes.MapPost(Holds, HoldAsync).TakesForm();
        routes.MapPost(Lifts, LiftAsync).TakesForm();
    }

    private static async Task<IResult> CommentAsync(
        HttpContext context,
        OpenLedger ledger,
        ServedSites sites,
        string id,
        CancellationToken stop
    )
    {
        var caller = Caller.Known(context.User);
        if (Unfit(ledger, sites, caller, id, out var own) is { } unfit)
        {
            return unfit;
        }

        var sent = SentForm.Of(CommentForm, await context.Request.ReadFormAsync(stop));
        var by = WhoAndWhy.Person(sent, caller, own.Registers);
        var comment = Read(sent, id);
        return by is null || comment is null
            ? RecordPages.Shown(context, ledger, sites, id, sent)
            : Entered(
                context,
                ledger,
                sites,
                id,
                sent,
                HoldActs.Entered(sent, new AddComment(ledger).Add(comment, by))
            );
    }

    private static Comment? Read(SentForm sent, string id)
    {
        if (sent.Given(Text) is not { } text)
        {
            sent.RefuseAt(Text, "Nothing is said; accepted: some sentences.");
            return null;
        }

        var document = new JsonObject
        {
            ["format"] = "comment/1",
            ["record"] = id,
            ["text"] = text,
        };
        if (
            !CommentFormat
                .Current.Read(Encoding.UTF8.GetBytes(document.ToJsonString()))
                .TryGet(out var comment, out var problems)
        )
        {
            sent.Refuse(problems.Told, Text);
            return null;
        }

        return comment;
    }

    private static async Task<IResult> HoldAsync(
        HttpContext context,
        OpenLedger ledger,
        ServedSites sites,
        string id,
        CancellationToken stop
    )
    {
        var caller = Caller.Known(context.User);
        if ((Unfit(ledger, sites, caller, id, out var own) ?? KeepingApi.OfEvery(caller)) is { } unfit)
        {
            return unfit;
        }

        var sent = SentForm.Of(HoldActs.Form, await context.Request.ReadFormAsync(stop));
        return HoldActs.Why(sent, caller, own.Registers) is { } why
            ? Entered(
                context,
                ledger,
                sites,
                id,
                sent,
                HoldActs.Entered(sent, new KeepHolds(ledger).Add(new() { Record = id }, why, caller.Name))
            )
            : RecordPages.Shown(context, ledger, sites, id, sent);
    }

    private static async Task<IResult> LiftAsync(
        HttpContext context,
        OpenLedger ledger,
        ServedSites sites,
        string id,
        string hold,
        CancellationToken stop
    )
    {
        var caller = Caller.Known(context.User);
        if ((Unfit(ledger, sites, caller, id, out var own) ?? KeepingApi.OfEvery(caller)) is { } unfit)
        {
            return unfit;
        }

        var sent = SentForm.Of(HoldActs.LiftForm(hold), await context.Request.ReadFormAsync(stop));
        return Find(ledger, id, hold) is null
            ? Complaint.Of(
                ProblemKind.NotFound,
                $"no hold `{Shortened.To(hold, 64)}` is on `{Shortened.To(id, 64)}`"
            )
            : Entered(
                context,
                ledger,
                sites,
                id,
                sent,
                HoldActs.Lift(ledger, () => Find(ledger, id, hold), sent, caller, own.Registers)
            );
    }

    private static Hold? Find(OpenLedger ledger, string id, string hold) =>
        ledger.Read(log => HoldsOfLog.ReadByName(log).About(log, id).FirstOrDefault(one => one.Id == hold));

    private static IResult? Unfit(
        OpenLedger ledger,
        ServedSites sites,
        Caller caller,
        string id,
        out ServedSite own
    )
    {
        own = sites.Home;
        return SeenRecords.IsSeen(ledger, id, caller)
            ? sites.ChooseFor(caller, null, id, ledger, out own)
            : RecordPages.NotFiled(id);
    }

    private static IResult Entered(
        HttpContext context,
        OpenLedger ledger,
        ServedSites sites,
        string id,
        SentForm sent,
        long? entry
    ) => entry is { } place ? Done(context, id, place) : RecordPages.Shown(context, ledger, sites, id, sent);

    private static IResult Done(HttpContext context, string id, long entry) =>
        SeeOther.At(
            context,
            string.Create(
                CultureInfo.InvariantCulture,
                $"/records/{Uri.EscapeDataString(id)}?{RecordPages.EntryWord}={entry}#done"
            )
        );
}
