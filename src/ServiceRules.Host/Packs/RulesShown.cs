using System.Globalization;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using ServiceRules.Application.Ledger;
using ServiceRules.Application.Packs;
using ServiceRules.Application.Rejudging;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Pages.Forms;
using ServiceRules.Host.Rejudging;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Packs;

/// <summary>Puts the page of the rules together: what is in force, what is stored, what whoever asks may do with it.</summary>
internal sealed class RulesShown(
    PackDesk desk,
    IRulesStore store,
    IRejudgingStore rejudgings,
    ServedSites sites,
    OpenLedger ledger
)
{
    public const string EntryWord = "entry";
    public const string StoredWord = "stored";
    public const string BegunWord = "begun";

    /// <param name="context">The request.</param>
    /// <param name="sent">What was sent by a form of it, and refused; null: nothing.</param>
    /// <param name="more">What else the page tells.</param>
    public RazorComponentResult<RulesPage> Page(
        HttpContext context,
        SentForm? sent = null,
        IReadOnlyDictionary<string, object?>? more = null
    )
    {
        var caller = Caller.Known(context.User);
        var isOfEvery = sites.OfEverySite(caller) is null;
        var told = PacksAnswer.Of(desk.InForce, store);
        var own = sites.Of(caller).Select(site => site.Name).ToList();
        var seesRejudging = isOfEvery && AccessTable.Opens("GET", "/api/packs/{digest}/rejudging", caller);
        var rejudging =
            seesRejudging && rejudgings.Find(told.Digest) is { } job
                ? ToldRejudging.Of(job, rejudgings)
                : null;
        var parameters = new Dictionary<string, object?>(StringComparer.Ordinal)
        {
            [nameof(RulesPage.Token)] = caller.IsLimited ? "" : FormToken.Of(context),
            [nameof(RulesPage.Told)] = told,
            [nameof(RulesPage.Rejudging)] = rejudging,
            [nameof(RulesPage.SeesRejudging)] = seesRejudging,
            [nameof(RulesPage.Activations)] = ledger.Read(log =>
                told.Activations.Select(one => ShownActivation.Of(log, one, caller)).ToList()
            ),
            [nameof(RulesPage.MayCheck)] = AccessTable.Opens("POST", RulePages.Check, caller),
            [nameof(RulesPage.MayChange)] =
                isOfEvery && AccessTable.Opens("POST", RulePages.Activation, caller),
            [nameof(RulesPage.Sites)] = own.Count > 1 ? own : [],
            [nameof(RulesPage.Person)] = caller.Person,
            [nameof(RulesPage.People)] = isOfEvery
                ? WhoAndWhy.People([.. sites.All.Select(site => site.Registers)]).ToList()
                : [],
            [nameof(RulesPage.Sent)] = sent,
            [nameof(RulesPage.Done)] = sent is null ? DoneOf(context.Request, told, rejudging) : null,
            [nameof(RulesPage.DoneEntry)] = EntryOf(context.Request),
        };
        foreach (var (name, value) in more ?? new Dictionary<string, object?>(StringComparer.Ordinal))
        {
            parameters[name] = value;
        }

        return new(parameters)
        {
            StatusCode = sent is { IsRefused: true }
                ? StatusCodes.Status422UnprocessableEntity
                : StatusCodes.Status200OK,
        };
    }

    private static string? DoneOf(HttpRequest request, PacksAnswer told, ToldRejudging? rejudging) =>
        EntryOf(request) is { } entry
        && told.Activations.FirstOrDefault(one => one.Entry == entry) is { } activation
            ? activation.Digest == told.Digest
                ? "These rules judge from now on."
                : $"{activation.Digest} came into force."
            : told.Stored.FirstOrDefault(one => one.Digest == request.Query[StoredWord]) is { } stored
                ? $"{stored.Digest} is stored. It judges nothing until it is put in force."
                : rejudging is not null && request.Query.ContainsKey(BegunWord)
                    ? "The history is judged again behind this page."
                    : null;

    private static long? EntryOf(HttpRequest request) =>
        long.TryParse(
            request.Query[EntryWord],
            NumberStyles.None,
            CultureInfo.InvariantCulture,
            out var entry
        )
            ? entry
            : null;
}
