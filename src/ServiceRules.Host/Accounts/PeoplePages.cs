using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using ServiceRules.Application.Accounts;
using ServiceRules.Host.Problems;
using ServiceRules.Host.Providers;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Accounts;

/// <summary>Accounts, for administrators.</summary>
internal static class PeoplePages
{
    private const string Place = "/people";

    public static void MapPeoplePages(this IEndpointRouteBuilder routes)
    {
        routes
            .MapGet(
                Place,
                (HttpContext context, IAccountStore accounts, ServedSites sites) =>
                    Shown(context, accounts, sites, DeskOutcome.Done)
            )
            .ExcludeFromDescription();
        routes
            .MapPost(
                Place,
                (
                    HttpContext context,
                    AccountDesk desk,
                    IAccountStore accounts,
                    ServedSites sites,
                    CancellationToken stop
                ) =>
                    AnswerAsync(
                        context,
                        accounts,
                        sites,
                        (form, by) =>
                            Given.Elsewhere(form) is { } called
                                ? desk.AddElsewhereAsync(
                                    form["name"].ToString().Trim(),
                                    called,
                                    Given.Roles(form),
                                    Given.Person(form),
                                    by,
                                    Given.Site(form)
                                )
                                : desk.AddAsync(
                                    form["name"].ToString().Trim(),
                                    Given.Roles(form),
                                    Given.Person(form),
                                    by,
                                    Given.Site(form)
                                ),
                        stop
                    )
            )
            .TakesForm();
        Map(
            routes,
            "roles",
            (desk, id, form, by) =>
                desk.GrantAsync(id, Given.Roles(form), Given.Person(form), by, Given.Site(form))
        );
        Map(
            routes,
            "elsewhere",
            (desk, id, form, by) => desk.SignInElsewhereAsync(id, Given.Elsewhere(form) ?? "", by)
        );
        Map(routes, "lock", (desk, id, _, by) => desk.LockAsync(id, by));
        Map(routes, "unlock", (desk, id, _, by) => desk.UnlockAsync(id, by));
        Map(routes, "reset", (desk, id, _, by) => desk.ResetAsync(id, by));
        routes.MapGet($"{Place}/{{id}}/removal", Removal).ExcludeFromDescription();
        Map(routes, "remove", (desk, id, _, by) => desk.RemoveAsync(id, by));
    }

    // Asked once more on a page of its own: it cannot be undone.
    private static IResult Removal(HttpContext context, IAccountStore accounts, string id) =>
        accounts.Accounts().FirstOrDefault(one => one.Id == id) is { } account
            ? new RazorComponentResult<RemovalPage>(
                new Dictionary<string, object?>(StringComparer.Ordinal)
                {
                    [nameof(RemovalPage.Token)] = FormToken.Of(context),
                    [nameof(RemovalPage.Account)] = account,
                }
            )
            : Complaint.Of(ProblemKind.NotFound, "there is no such account");

    private static void Map(
        IEndpointRouteBuilder routes,
        string what,
        Func<AccountDesk, string, IFormCollection, string, Task<DeskOutcome>> act
    ) =>
        routes
            .MapPost(
                $"{Place}/{{id}}/{what}",
                (
                    HttpContext context,
                    AccountDesk desk,
                    IAccountStore accounts,
                    ServedSites sites,
                    string id,
                    CancellationToken stop
                ) => AnswerAsync(context, accounts, sites, (form, by) => act(desk, id, form, by), stop)
            )
            .TakesForm();

    private static async Task<IResult> AnswerAsync(
        HttpContext context,
        IAccountStore accounts,
        ServedSites sites,
        Func<IFormCollection, string, Task<DeskOutcome>> act,
        CancellationToken stop
    )
    {
        var form = await context.Request.ReadFormAsync(stop);
        var outcome = await act(form, Caller.Known(context.User).Name);
        // What is told once is shown in the answer itself, and nowhere else.
        return outcome is { IsDone: true, Secret: null }
            ? SeeOther.At(context, Place)
            : Shown(context, accounts, sites, outcome);
    }

    private static RazorComponentResult<PeoplePage> Shown(
        HttpContext context,
        IAccountStore accounts,
        ServedSites sites,
        DeskOutcome outcome
    )
    {
        var provider = context.RequestServices.GetRequiredService<Provider>();
        return new(
            new Dictionary<string, object?>(StringComparer.Ordinal)
            {
                [nameof(PeoplePage.Token)] = FormToken.Of(context),
                [nameof(PeoplePage.Accounts)] = (IReadOnlyList<Account>)accounts.Accounts(),
                [nameof(PeoplePage.Choices)] = GrantChoices.Of(sites),
                [nameof(PeoplePage.Provider)] = provider.Name,
                [nameof(PeoplePage.Vouching)] = provider.Settings?.Vouching,
                [nameof(PeoplePage.Secret)] = outcome.IsDone ? outcome.Secret : null,
                [nameof(PeoplePage.Problems)] = outcome.Problems,
            }
        )
        {
            StatusCode = outcome.IsDone ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity,
        };
    }
}
