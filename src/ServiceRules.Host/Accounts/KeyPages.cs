using System.Globalization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using ServiceRules.Application.Accounts;
using ServiceRules.Application.Ledger;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Accounts;

/// <summary>Keys of programs and privileged acts, for administrators.</summary>
internal static class KeyPages
{
    private const string Place = "/keys";

    private const int ActsShown = 200;

    public static void MapKeyPages(this IEndpointRouteBuilder routes)
    {
        routes
            .MapGet(
                Place,
                (HttpContext context, IAccountStore accounts, ServedSites sites, TimeProvider clock) =>
                    Shown(context, accounts, sites, clock, DeskOutcome.Done)
            )
            .ExcludeFromDescription();
        routes.MapPost(Place, MakeAsync).TakesForm();
        routes
            .MapPost(
                Place + "/{id}/revoke",
                (HttpContext context, KeyMaking keys, string id) =>
                {
                    _ = keys.Revoke(id, Caller.Known(context.User).Name);
                    return SeeOther.At(context, Place);
                }
            )
            .TakesForm();
        routes
            .MapGet(
                "/acts",
                (IAccountStore accounts, OpenLedger ledger, long? before) =>
                {
                    var acts = accounts.Acts(before, ActsShown + 1);
                    return new RazorComponentResult<ActsPage>(
                        new Dictionary<string, object?>(StringComparer.Ordinal)
                        {
                            [nameof(ActsPage.Acts)] = ledger.Read(log =>
                                (IReadOnlyList<ToldAct>)
                                    [.. acts.Take(ActsShown).Select(act => ToldAct.Of(log, act))]
                            ),
                            [nameof(ActsPage.IsFull)] = acts.Length > ActsShown,
                        }
                    );
                }
            )
            .ExcludeFromDescription();
    }

    private static async Task<IResult> MakeAsync(
        HttpContext context,
        IAccountStore accounts,
        KeyMaking keys,
        ServedSites sites,
        TimeProvider clock,
        CancellationToken stop
    )
    {
        var form = await context.Request.ReadFormAsync(stop);
        return Shown(context, accounts, sites, clock, Make(context, keys, sites, form));
    }

    private static DeskOutcome Make(
        HttpContext context,
        KeyMaking keys,
        ServedSites sites,
        IFormCollection form
    )
    {
        var name = form["name"].ToString().Trim();
        var roles = Given.Roles(form);
        var person = Given.Person(form);
        var site = Given.Site(form);
        if (name.Length is 0 or > Grant.NameMost)
        {
            return DeskOutcome.Refused(
                $"the name is empty or too long; accepted: 1 to {Grant.NameMost} characters"
            );
        }

        if (name.StartsWith(AccountDesk.DemoStart, StringComparison.OrdinalIgnoreCase))
        {
            return DeskOutcome.Refused(
                $"names that begin with `{AccountDesk.DemoStart}` are those of a demo; accepted: another"
            );
        }

        if (sites.Fault(roles, person, site) is { } fault)
        {
            return DeskOutcome.Refused(fault);
        }

        if (
            !int.TryParse(form["days"], NumberStyles.None, CultureInfo.InvariantCulture, out var days)
            || days is < 1 or > KeyMaking.MostDays
        )
        {
            return DeskOutcome.Refused($"the days are no number; accepted: 1 to {KeyMaking.MostDays}");
        }

        var (secret, _) = keys.Make(name, roles, person, days, Caller.Known(context.User).Name, site);
        return DeskOutcome.Done with { Secret = secret };
    }

    private static RazorComponentResult<KeysPage> Shown(
        HttpContext context,
        IAccountStore accounts,
        ServedSites sites,
        TimeProvider clock,
        DeskOutcome outcome
    ) =>
        new(
            new Dictionary<string, object?>(StringComparer.Ordinal)
            {
                [nameof(KeysPage.Token)] = FormToken.Of(context),
                [nameof(KeysPage.Keys)] = (IReadOnlyList<ApiKey>)accounts.Keys(),
                [nameof(KeysPage.Choices)] = GrantChoices.Of(sites),
                [nameof(KeysPage.Now)] = clock.GetUtcNow(),
                [nameof(KeysPage.Secret)] = outcome.Secret,
                [nameof(KeysPage.Problems)] = outcome.Problems,
            }
        )
        {
            StatusCode = outcome.IsDone ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity,
        };
}
