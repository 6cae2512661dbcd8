using System.Globalization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Http.Timeouts;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Application.Packs;
using ServiceRules.Application.Rejudging;
using ServiceRules.Host.Accounts;
using ServiceRules.Host.Apis;
using ServiceRules.Host.Notices;
using ServiceRules.Host.Pages.Forms;
using ServiceRules.Host.Problems;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Packs;

/// <summary>The rules in force: seen by all who read records, compared by those who oversee, changed by leads.</summary>
internal static class RulePages
{
    public const string Place = "/rules";
    public const string Check = Place + "/check";
    public const string Comparison = Place + "/comparison";
    public const string Activation = Place + "/activation";
    public const string Rejudging = Place + "/rejudging";

    public const string ArchiveForm = "archive";
    public const string ArchiveField = "file";
    public const string RejudgeForm = "rejudge";
    public const string DigestField = "digest";
    public const string NewestField = "newest";
    public const string SiteField = "site";
    public const string UsualNewest = "100";

    // Longer than two presses of a button are apart: a short history is judged in between.
    private static readonly TimeSpan Moment = TimeSpan.FromSeconds(10);

    private const int NewestMost = 1_000;
    private const int NameLength = 12;

    public static string CompareForm(string digest) => "compare-" + ShortOf(digest);

    public static string ActivateForm(string digest) => "activate-" + ShortOf(digest);

    public static void MapRulePages(this IEndpointRouteBuilder routes)
    {
        routes
            .MapGet(Place, (HttpContext context, RulesShown shown) => shown.Page(context))
            .ExcludeFromDescription();
        routes.MapPost(Place, StoreAsync).TakesForm().TakesArchive();
        routes.MapPost(Check, CheckAsync).TakesForm().TakesArchive();
        routes
            .MapPost(Comparison, CompareAsync)
            .TakesForm()
            .WithMetadata(new RequestTimeoutAttribute((int)PacksApi.AnswerTime.TotalMilliseconds));
        routes.MapPost(Activation, ActivateAsync).TakesForm();
        routes.MapPost(Rejudging, RejudgeAsync).TakesForm();
    }

    private static void TakesArchive(this RouteHandlerBuilder route) =>
        route
            // The fields around the file take a little more than the file.
            .WithMetadata(new RequestSizeLimitAttribute(ServiceLimits.PackBytes + 16 * 1024))
            .WithMetadata(new RequestTimeoutAttribute((int)PacksApi.AnswerTime.TotalMilliseconds));

    // The name of a set within the page.
    private static string ShortOf(string digest)
    {
        var name = digest[(digest.IndexOf(':', StringComparison.Ordinal) + 1)..];
        return name[..Math.Min(NameLength, name.Length)];
    }

    private static async Task<IResult> CheckAsync(
        HttpContext context,
        RulesShown shown,
        PackDesk desk,
        ServedSites sites,
        CancellationToken stop
    )
    {
        // What is wrong with them tells of the registers that they are held against.
        var caller = Caller.Known(context.User);
        if (!caller.SeesEverySite && sites.Choose(caller, null, out _) is { } ofNone)
        {
            return ofNone;
        }

        var (sent, tried, problems) = await TriedAsync(context, desk, sites.Of(caller), _ => false, stop);
        return tried is null
            ? Refused(context, shown, sent, problems)
            : shown.Page(
                context,
                null,
                new Dictionary<string, object?>(StringComparer.Ordinal)
                {
                    [nameof(RulesPage.Checked)] = PackCheckAnswer.Of(tried, desk.InForce.Activation.Digest),
                }
            );
    }

    private static async Task<IResult> StoreAsync(
        HttpContext context,
        RulesShown shown,
        PackDesk desk,
        IRulesStore store,
        StoreRules storing,
        ServedSites sites,
        CancellationToken stop
    )
    {
        var caller = Caller.Known(context.User);
        if (sites.OfEverySite(caller) is { } notEvery)
        {
            return notEvery;
        }

        var (sent, tried, problems) = await TriedAsync(
            context,
            desk,
            sites.All,
            digest => store.Book(digest) is not null,
            stop
        );
        if (tried is null)
        {
            return Refused(context, shown, sent, problems);
        }

        if (PacksApi.Keep(tried, storing, caller, out _) is { } unreadable)
        {
            sent.Refuse(unreadable.Told);
            return shown.Page(context, sent);
        }

        return SeeOther.At(
            context,
            Place + QueryString.Create(RulesShown.StoredWord, tried.Digest).ToUriComponent() + "#done"
        );
    }

    private static async Task<(
        SentForm Sent,
        PackTried? Tried,
        IReadOnlyList<ToldProblem> Problems
    )> TriedAsync(
        HttpContext context,
        PackDesk desk,
        IEnumerable<ServedSite> sites,
        Func<string, bool> isChecked,
        CancellationToken stop
    )
    {
        var form = await context.Request.ReadFormAsync(stop);
        var sent = SentForm.Of(ArchiveForm, form);
        if (form.Files.GetFile(ArchiveField) is not { Length: > 0 } file)
        {
            sent.RefuseAt(
                ArchiveField,
                "No file was chosen; accepted: an archive (ZIP) of a folder of rules."
            );
            return (sent, null, []);
        }

        if (file.Length > ServiceLimits.PackBytes)
        {
            sent.RefuseAt(
                ArchiveField,
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"The file has {file.Length} bytes; accepted: up to {ServiceLimits.PackBytes}."
                )
            );
            return (sent, null, []);
        }

        using var held = new MemoryStream();
        await file.CopyToAsync(held, stop);
        var (tried, wrong) = await PacksApi.TriedAsync(held.ToArray(), desk, sites, null, isChecked, stop);
        if (wrong is null)
        {
            return (sent, tried, []);
        }

        if (wrong.Problems is { Count: > 0 } problems)
        {
            sent.RefuseAt(
                ArchiveField,
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{problems.Count + (wrong.Untold ?? 0)} things are wrong with these rules; each is told below."
                )
            );
            return (sent, null, problems);
        }

        sent.Refuse(wrong.Detail, wrong.Accepted, ArchiveField);
        return (sent, null, []);
    }

    private static RazorComponentResult<RulesPage> Refused(
        HttpContext context,
        RulesShown shown,
        SentForm sent,
        IReadOnlyList<ToldProblem> problems
    ) =>
        shown.Page(
            context,
            sent,
            new Dictionary<string, object?>(StringComparer.Ordinal)
            {
                [nameof(RulesPage.Problems)] = problems,
            }
        );

    private static async Task<IResult> CompareAsync(
        HttpContext context,
        RulesShown shown,
        PackDesk desk,
        ActiveRules rules,
        ServedSites sites,
        CancellationToken stop
    )
    {
        var form = await context.Request.ReadFormAsync(stop);
        var digest = form[DigestField].ToString();
        var sent = SentForm.Of(CompareForm(digest), form);
        if (rules.Find(digest) is not { } others)
        {
            return NotStored(digest);
        }

        var caller = Caller.Known(context.User);
        if (sites.Of(caller).Skip(1).Any() && sent.Given(SiteField) is null)
        {
            sent.RefuseAt(SiteField, "It is not said at which site; accepted: one of the list.");
        }

        if (
            !int.TryParse(
                sent.Given(NewestField) ?? UsualNewest,
                NumberStyles.None,
                CultureInfo.InvariantCulture,
                out var newest
            ) || newest is < 1 or > NewestMost
        )
        {
            sent.RefuseAt(
                NewestField,
                $"So many records are not compared at once; accepted: 1 to {NewestMost}."
            );
        }

        if (sent.IsRefused)
        {
            return shown.Page(context, sent);
        }

        if (sites.Choose(caller, sent.Given(SiteField), out var own) is { } elsewhere)
        {
            return elsewhere;
        }

        try
        {
            var from = desk.InForce.Activation.Digest;
            if (
                await desk.CompareAsync(others, own.Rules.Now().Site, sites.AreSeveral, newest, stop) is
                { } compared
            )
            {
                return shown.Page(
                    context,
                    null,
                    new Dictionary<string, object?>(StringComparer.Ordinal)
                    {
                        [nameof(RulesPage.Compared)] = ComparisonAnswer.Of(from, digest, compared),
                    }
                );
            }

            sent.Refuse(PacksApi.OthersDocument.Detail, null);
        }
        catch (OperationCanceledException) when (!stop.IsCancellationRequested)
        {
            sent.Refuse(
                "comparing did not come to an end in the time that it has",
                "fewer records",
                NewestField
            );
        }

        return shown.Page(context, sent);
    }

    private static async Task<IResult> ActivateAsync(
        HttpContext context,
        RulesShown shown,
        ActivateRules activating,
        ServedSites sites,
        CancellationToken stop
    )
    {
        var caller = Caller.Known(context.User);
        if (sites.OfEverySite(caller) is { } notEvery)
        {
            return notEvery;
        }

        var form = await context.Request.ReadFormAsync(stop);
        var digest = form[DigestField].ToString();
        var sent = SentForm.Of(ActivateForm(digest), form);
        Application.Library.SiteRegisters[] registers = [.. sites.All.Select(site => site.Registers)];
        var by = WhoAndWhy.Person(sent, caller, registers);
        var reason = WhoAndWhy.Sentence(sent, registers);
        if (by is null || reason is null)
        {
            return shown.Page(context, sent);
        }

        switch (activating.Activate(digest, by, reason, caller.Name))
        {
            case ActivationOutcome.Activated one:
                return InForce(context, one.Activation);
            case ActivationOutcome.Stood one:
                return InForce(context, one.Activation);
            case ActivationOutcome.NotStored:
                return NotStored(digest);
            case ActivationOutcome.NotRead:
                sent.Refuse(
                    "These were stored by another version, whose words this one does not read",
                    "the same packs and sheets, stored again"
                );
                return shown.Page(context, sent);
            case ActivationOutcome.Declined declined:
                sent.Refuse(declined.Refusal.What, declined.Refusal.Accepted);
                return shown.Page(context, sent);
            default:
                throw new InvalidOperationException("an unknown outcome of putting rules in force");
        }
    }

    private static async Task<IResult> RejudgeAsync(
        HttpContext context,
        RulesShown shown,
        BeginRejudging beginning,
        IRejudgingStore store,
        ServedSites sites,
        NoticeBell bell,
        TimeProvider clock,
        CancellationToken stop
    )
    {
        var caller = Caller.Known(context.User);
        if (sites.OfEverySite(caller) is { } notEvery)
        {
            return notEvery;
        }

        var form = await context.Request.ReadFormAsync(stop);
        var digest = form[DigestField].ToString();
        var sent = SentForm.Of(RejudgeForm, form);
        var reason = sent.Given(WhoAndWhy.Reason) is null
            ? null
            : WhoAndWhy.Sentence(sent, [.. sites.All.Select(site => site.Registers)]);
        if (sent.IsRefused)
        {
            return shown.Page(context, sent);
        }

        if (
            store.Find(digest) is { State: not RejudgingState.Ended } just
            && just.By == caller.Name
            && just.BegunAt > clock.GetUtcNow() - Moment
        )
        {
            return Begun(context);
        }

        switch (beginning.Begin(digest, reason, caller.Name))
        {
            case RejudgingBegun.Begun or RejudgingBegun.Running:
                bell.Ring();
                return Begun(context);
            case RejudgingBegun.NotStored:
                return NotStored(digest);
            case RejudgingBegun.NotInForce:
                sent.Refuse(
                    "Other rules came into force meanwhile, and the history is judged by those alone",
                    "the form as it stands now"
                );
                return shown.Page(context, sent);
            default:
                throw new InvalidOperationException("an unknown outcome of beginning");
        }
    }

    private static IResult Begun(HttpContext context) =>
        SeeOther.At(context, $"{Place}?{RulesShown.BegunWord}=1#done");

    private static IResult InForce(HttpContext context, RulesActivation activation) =>
        SeeOther.At(
            context,
            activation.Entry is { } entry
                ? string.Create(CultureInfo.InvariantCulture, $"{Place}?{RulesShown.EntryWord}={entry}#done")
                : Place
        );

    private static IResult NotStored(string digest) =>
        Complaint.Of(
            ProblemKind.NotFound,
            $"no packs and sheets are stored under `{Shortened.To(digest, 80)}`",
            "one that is listed"
        );
}
