using System.Globalization;
using System.Text;
using System.Text.Json.Nodes;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Waiving;
using ServiceRules.Domain.Site;
using ServiceRules.Domain.Verdicts;
using ServiceRules.Formats.Registers;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Pages.Forms;
using ServiceRules.Host.Problems;
using ServiceRules.Host.Sites;
using ServiceRules.Rules.Model;

namespace ServiceRules.Host.Waiving;

/// <summary>Waivers: listed for all who read records, entered and withdrawn by leads.</summary>
internal static class WaiverPages
{
    public const string Place = "/waivers";

    public const string EnterForm = "enter";
    public const string RuleField = "rule";
    public const string UnitField = "unit";
    public const string FromField = "from";
    public const string UntilField = "until";
    public const string SiteField = "site";

    private const string EntryWord = "entry";
    private const int TitleLength = 60;

    public static string WithdrawForm(string id) => $"withdraw-{id}";

    public static void MapWaiverPages(this IEndpointRouteBuilder routes)
    {
        routes
            .MapGet(
                Place,
                (HttpContext context, ServedSites sites, IWaiverReading waivers) =>
                    Shown(context, sites, waivers, null)
            )
            .ExcludeFromDescription();
        routes.MapPost(Place, EnterAsync).TakesForm();
        routes.MapPost(Place + "/{id}/withdrawal", WithdrawAsync).TakesForm();
    }

    private static async Task<IResult> EnterAsync(
        HttpContext context,
        OpenLedger ledger,
        ServedSites sites,
        IWaiverReading waivers,
        CancellationToken stop
    )
    {
        var caller = Caller.Known(context.User);
        var sent = SentForm.Of(EnterForm, await context.Request.ReadFormAsync(stop));
        if (SitesOf(sites, caller).Count > 0 && sent.Given(SiteField) is null)
        {
            sent.RefuseAt(SiteField, "It is not said at which site; accepted: one of the list.");
            return Shown(context, sites, waivers, sent);
        }

        if (sites.Choose(caller, sent.Given(SiteField), out var own) is { } elsewhere)
        {
            return elsewhere;
        }

        if (Read(sent, caller) is not { } waiver)
        {
            return Shown(context, sites, waivers, sent);
        }

        switch (
            new KeepWaivers(ledger, own.Library, own.Name, sites.AreSeveral).Enter(
                own.Rules.Now().Book,
                waiver,
                caller.Name
            )
        )
        {
            case WaiverOutcome.Done done:
                return Done(context, done.Waiver.Entry);
            case WaiverOutcome.Stood stood:
                return Done(context, stood.Waiver.Entry);
            case WaiverOutcome.Unfit unfit:
                foreach (var remark in unfit.Problems)
                {
                    sent.Refuse(remark.What, remark.Right, FieldOf(remark.Pointer));
                }

                return Shown(context, sites, waivers, sent);
            case WaiverOutcome.Declined declined:
                sent.Refuse(declined.Refusal.What, declined.Refusal.Accepted);
                return Shown(context, sites, waivers, sent);
            default:
                throw new InvalidOperationException("an unknown outcome of entering a waiver");
        }
    }

    private static Waiver? Read(SentForm sent, Caller caller)
    {
        var document = new JsonObject { ["format"] = "waiver/1" };
        (string Name, string? Value, string Missing)[] fields =
        [
            (RuleField, sent.Given(RuleField), "It is not said which rule; accepted: one of the list."),
            (UnitField, sent.Given(UnitField), ""),
            (
                WhoAndWhy.By,
                caller.Person ?? sent.Given(WhoAndWhy.By),
                "It is not said who answers for it; accepted: one of the list."
            ),
            (WhoAndWhy.Reason, sent.Given(WhoAndWhy.Reason), "It is not said why; accepted: a sentence."),
            (
                FromField,
                sent.Given(FromField),
                "It is not said from when; accepted: the first day of jobs that it is about."
            ),
            (
                UntilField,
                sent.Given(UntilField),
                "It is not said until when; accepted: the last day of jobs."
            ),
        ];
        foreach (var (name, value, missing) in fields)
        {
            if (value is not null)
            {
                document[name] = value;
            }
            else if (missing.Length > 0)
            {
                sent.RefuseAt(name, missing);
            }
        }

        if (sent.IsRefused)
        {
            return null;
        }

        if (
            WaiverFormat
                .Current.Read(Encoding.UTF8.GetBytes(document.ToJsonString()))
                .TryGet(out var waiver, out var problems)
        )
        {
            return waiver;
        }

        sent.Refuse(problems.Told, [.. fields.Select(field => field.Name)]);
        return null;
    }

    private static async Task<IResult> WithdrawAsync(
        HttpContext context,
        OpenLedger ledger,
        ServedSites sites,
        IWaiverReading waivers,
        string id,
        CancellationToken stop
    )
    {
        var caller = Caller.Known(context.User);
        var sent = SentForm.Of(WithdrawForm(id), await context.Request.ReadFormAsync(stop));
        if (sites.Choose(caller, sent.Given(SiteField), out var own) is { } elsewhere)
        {
            return elsewhere;
        }

        if (
            ToldWaiver.NumberOf(id) is not { } number
            || waivers.Of(own.Name).FirstOrDefault(one => one.Number == number) is not { } kept
        )
        {
            return NotThere(id);
        }

        // Whoever pressed twice is told what the first time came to.
        if (kept.WithdrawnBy is { } already)
        {
            return Done(context, already);
        }

        if (WhoAndWhy.Sentence(sent, own.Registers) is not { } reason)
        {
            return Shown(context, sites, waivers, sent);
        }

        switch (
            new KeepWaivers(ledger, own.Library, own.Name, sites.AreSeveral).Withdraw(
                number,
                reason,
                caller.Name
            )
        )
        {
            case WaiverOutcome.Done done:
                return Done(context, done.Waiver.WithdrawnBy);
            case WaiverOutcome.Stood stood:
                return Done(context, stood.Waiver.WithdrawnBy);
            case WaiverOutcome.Unknown:
                return NotThere(id);
            case WaiverOutcome.Declined declined:
                sent.Refuse(declined.Refusal.What, declined.Refusal.Accepted);
                return Shown(context, sites, waivers, sent);
            default:
                throw new InvalidOperationException("an unknown outcome of withdrawing a waiver");
        }
    }

    private static string FieldOf(string pointer) =>
        pointer.TrimStart('/')
            is (RuleField or UnitField or WhoAndWhy.By or WhoAndWhy.Reason or FromField or UntilField)
                and var field
            ? field
            : "";

    private static IResult NotThere(string id) =>
        Complaint.Of(
            ProblemKind.NotFound,
            $"no waiver `{Shortened.To(id, 64)}` was entered here",
            "one that is listed"
        );

    private static IResult Done(HttpContext context, long? entry) =>
        SeeOther.At(
            context,
            string.Create(CultureInfo.InvariantCulture, $"{Place}?{EntryWord}={entry}#done")
        );

    // Empty where there is one for whoever asks.
    private static List<string> SitesOf(ServedSites sites, Caller caller) =>
        sites.Of(caller).Select(site => site.Name).ToList() is { Count: > 1 } several ? several : [];

    private static RazorComponentResult<WaiversPage> Shown(
        HttpContext context,
        ServedSites sites,
        IWaiverReading waivers,
        SentForm? sent
    )
    {
        var caller = Caller.Known(context.User);
        var own = sites.Of(caller).ToList();
        var rules = own.Count == 0 ? [] : RulesOf(own[0].Rules.Now().Book);
        var all = own.SelectMany(site =>
                site.Registers.Waivers.Select(ToldWaiver.Of)
                    .Concat(waivers.Of(site.Name).Select(ToldWaiver.Of))
                    .Select(told => ShownWaiver.Of(told, site.Name, id => rules.GetValueOrDefault(id)?.Title))
            )
            .ToList();
        var mayEnter = own.Count > 0 && AccessTable.Opens("POST", Place, caller);
        var entry =
            sent is null
            && long.TryParse(
                context.Request.Query[EntryWord],
                NumberStyles.None,
                CultureInfo.InvariantCulture,
                out var said
            )
                ? said
                : (long?)null;
        return new(
            new Dictionary<string, object?>(StringComparer.Ordinal)
            {
                [nameof(WaiversPage.Token)] = mayEnter ? FormToken.Of(context) : "",
                [nameof(WaiversPage.Waivers)] = all,
                [nameof(WaiversPage.Sites)] = SitesOf(sites, caller),
                [nameof(WaiversPage.MayEnter)] = mayEnter,
                [nameof(WaiversPage.Person)] = caller.Person,
                [nameof(WaiversPage.People)] = own.SelectMany(site => site.Registers.People)
                    .Where(person => person.MayRelease)
                    .Select(person => person.Id.Text)
                    .Distinct()
                    .ToList(),
                [nameof(WaiversPage.Rules)] = rules
                    .Values.Where(rule => rule.Severity is not Severity.Stop)
                    .Select(rule => new FieldChoice(
                        rule.Id.Text,
                        $"{rule.Id.Text}: {Shortened.To(rule.Title, TitleLength)}"
                    ))
                    .OrderBy(rule => rule.Value, StringComparer.Ordinal)
                    .ToList(),
                [nameof(WaiversPage.Done)] = DoneAt(entry, all),
                [nameof(WaiversPage.DoneEntry)] = caller.IsLimited ? null : entry,
                [nameof(WaiversPage.Sent)] = sent,
            }
        )
        {
            StatusCode = sent is null ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity,
        };
    }

    private static string? DoneAt(long? entry, List<ShownWaiver> all) =>
        entry is null ? null
        : all.Find(one => one.Entry == entry) is { } entered ? $"{entered.Id} is entered."
        : all.Find(one => one.WithdrawnBy == entry) is { } withdrawn ? $"{withdrawn.Id} is withdrawn."
        : null;

    private static Dictionary<string, Rule> RulesOf(RuleBook book) =>
        book
            .Packs.SelectMany(pack => pack.Rules)
            .DistinctBy(rule => rule.Id.Text)
            .ToDictionary(rule => rule.Id.Text, StringComparer.Ordinal);
}
