using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Identity;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using ServiceRules.Application.Accounts;
using ServiceRules.Host.Problems;
using ServiceRules.Host.Providers;

namespace ServiceRules.Host.Accounts;

/// <summary>One's own account: the password, and signing out.</summary>
internal static class AccountPages
{
    public const string Place = "/account";

    public static void MapAccountPages(this IEndpointRouteBuilder routes)
    {
        routes.MapGet(Place, (HttpContext context) => Shown(context, [], false)).ExcludeFromDescription();
        routes.MapPost(Place + "/password", ChangeAsync).TakesForm();
        routes.MapPost(Place + "/sign-out", SignOutAsync).TakesForm();
    }

    private static async Task<IResult> ChangeAsync(
        HttpContext context,
        AccountDesk desk,
        SignInDesk signing,
        SignInTurns turns,
        UserManager<AccountUser> users,
        CancellationToken stop
    )
    {
        if (await users.GetUserAsync(context.User) is not { } user)
        {
            return OfAKey();
        }

        var form = await context.Request.ReadFormAsync(stop);
        var outcome = await turns.TakeAsync(
            () => desk.ChangePasswordAsync(user, form["old"].ToString(), form["new"].ToString()),
            stop
        );
        if (outcome is null)
        {
            return SignInTurns.Others(context);
        }

        if (outcome.IsDone)
        {
            await signing.SignInAsync(user);
        }

        return Shown(context, outcome.Problems, outcome.IsDone);
    }

    // Everywhere: a cookie that was copied opens nothing after it.
    private static async Task<IResult> SignOutAsync(
        HttpContext context,
        AccountDesk desk,
        UserManager<AccountUser> users
    )
    {
        if (await users.GetUserAsync(context.User) is not { } user)
        {
            return OfAKey();
        }

        await desk.EndSessionsAsync(user);
        await context.SignOutAsync(IdentityConstants.ApplicationScheme);
        return SeeOther.At(context, AccountServices.SignInPlace);
    }

    private static IResult OfAKey() =>
        Complaint.Of(ProblemKind.NotAllowed, "a key has no password and no session");

    private static RazorComponentResult<AccountPage> Shown(
        HttpContext context,
        IReadOnlyList<string> problems,
        bool isChanged
    )
    {
        var caller = Caller.Known(context.User);
        return new(
            new Dictionary<string, object?>(StringComparer.Ordinal)
            {
                [nameof(AccountPage.Token)] = FormToken.Of(context),
                [nameof(AccountPage.Name)] = context.User.Identity?.Name ?? caller.Name,
                [nameof(AccountPage.Roles)] = RoleWords.Text(caller.Roles),
                [nameof(AccountPage.Person)] = caller.Person,
                [nameof(AccountPage.Provider)] = caller.SignsInElsewhere
                    ? context.RequestServices.GetRequiredService<Provider>().Name ?? "another place"
                    : null,
                [nameof(AccountPage.MustChange)] = caller.MustChange && !isChanged,
                [nameof(AccountPage.IsChanged)] = isChanged,
                [nameof(AccountPage.Problems)] = problems,
            }
        )
        {
            StatusCode =
                problems.Count == 0 ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity,
        };
    }
}
