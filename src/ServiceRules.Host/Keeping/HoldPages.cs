using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Application.Keeping;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Library;
using ServiceRules.Formats.Ledger;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Apis;
using ServiceRules.Host.Pages.Filed;
using ServiceRules.Host.Pages.Forms;
using ServiceRules.Host.Problems;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Keeping;

/// <summary>All holds: on a record, a machine, a person, on days, or on what all of these fit.</summary>
internal static class HoldPages
{
    public const string Place = "/holds";

    public const string Record = "record";
    public const string Machine = "machine";
    public const string Named = "person";
    public const string From = "from";
    public const string Until = "until";

    private const string EntryWord = "entry";

    private static readonly string[] Fields = [Record, Machine, Named, From, Until];

    public static void MapHoldPages(this IEndpointRouteBuilder routes)
    {
        routes
            .MapGet(
                Place,
                (HttpContext context, OpenLedger ledger, ServedSites sites) =>
                    KeepingApi.OfEvery(Caller.Known(context.User)) ?? Shown(context, ledger, sites, null)
            )
            .ExcludeFromDescription();
        routes.MapPost(Place, HoldAsync).TakesForm();
        routes.MapPost(Place + "/{hold}/lift", LiftAsync).TakesForm();
    }

    private static async Task<IResult> HoldAsync(
        HttpContext context,
        OpenLedger ledger,
        ServedSites sites,
        CancellationToken stop
    )
    {
        var caller = Caller.Known(context.User);
        if (KeepingApi.OfEvery(caller) is { } notEvery)
        {
            return notEvery;
        }

        var sent = SentForm.Of(HoldActs.Form, await context.Request.ReadFormAsync(stop));
        var scope = Scope(sent);
        var why = HoldActs.Why(sent, caller, Registers(sites));
        return
            scope is not null
            && why is not null
            && HoldActs.Entered(sent, new KeepHolds(ledger).Add(scope, why, caller.Name)) is { } entry
            ? Done(context, entry)
            : Shown(context, ledger, sites, sent);
    }

    private static HoldDocument? Scope(SentForm sent)
    {
        var document = new JsonObject { ["format"] = "hold/1" };
        foreach (var field in Fields)
        {
            if (sent.Given(field) is { } value)
            {
                document[field] = value;
            }
        }

        if (
            HoldFormat
                .Current.Read(Encoding.UTF8.GetBytes(document.ToJsonString()))
                .TryGet(out var scope, out var problems)
        )
        {
            return scope;
        }

        sent.Refuse(problems.Told, Fields);
        return null;
    }

    private static async Task<IResult> LiftAsync(
        HttpContext context,
        OpenLedger ledger,
        ServedSites sites,
        string hold,
        CancellationToken stop
    )
    {
        var caller = Caller.Known(context.User);
        if (KeepingApi.OfEvery(caller) is { } notEvery)
        {
            return notEvery;
        }

        var sent = SentForm.Of(HoldActs.LiftForm(hold), await context.Request.ReadFormAsync(stop));
        return Find(ledger, hold) is null
                ? Complaint.Of(ProblemKind.NotFound, $"there is no hold `{Shortened.To(hold, 64)}`")
            : HoldActs.Lift(ledger, () => Find(ledger, hold), sent, caller, Registers(sites)) is { } entry
                ? Done(context, entry)
            : Shown(context, ledger, sites, sent);
    }

    private static Hold? Find(OpenLedger ledger, string hold) =>
        ledger.Read(log => HoldsOfLog.ReadByName(log).All.FirstOrDefault(one => one.Id == hold));

    private static SiteRegisters[] Registers(ServedSites sites) =>
        [.. sites.All.Select(site => site.Registers)];

    private static IResult Done(HttpContext context, long entry) =>
        SeeOther.At(
            context,
            string.Create(CultureInfo.InvariantCulture, $"{Place}?{EntryWord}={entry}#done")
        );

    private static RazorComponentResult<HoldsPage> Shown(
        HttpContext context,
        OpenLedger ledger,
        ServedSites sites,
        SentForm? sent
    )
    {
        var caller = Caller.Known(context.User);
        var registers = Registers(sites);
        var holds = ledger.Read(log =>
            HoldsOfLog.ReadByName(log).All.Reverse().Select(hold => ShownHold.Of(log, hold, caller)).ToList()
        );
        long? entry =
            sent is null
            && long.TryParse(
                context.Request.Query[EntryWord],
                NumberStyles.None,
                CultureInfo.InvariantCulture,
                out var said
            )
                ? said
                : null;
        return new(
            new Dictionary<string, object?>(StringComparer.Ordinal)
            {
                [nameof(HoldsPage.Token)] = FormToken.Of(context),
                [nameof(HoldsPage.Holds)] = holds,
                [nameof(HoldsPage.Person)] = caller.Person,
                [nameof(HoldsPage.People)] = WhoAndWhy.People(registers).ToList(),
                [nameof(HoldsPage.Machines)] = registers
                    .SelectMany(site => site.Machines)
                    .Select(machine => machine.Id.Text)
                    .Distinct()
                    .ToList(),
                [nameof(HoldsPage.Done)] =
                    entry is null ? null
                    : holds.Find(hold => hold.Entry == entry) is { } held
                        ? $"{held.Id} keeps what is named: {held.Keeps}."
                    : holds.Find(hold => hold.LiftedBy == entry) is { } lifted ? $"{lifted.Id} is lifted."
                    : null,
                [nameof(HoldsPage.DoneEntry)] = entry,
                [nameof(HoldsPage.Sent)] = sent,
            }
        )
        {
            StatusCode = sent is null ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity,
        };
    }
}
