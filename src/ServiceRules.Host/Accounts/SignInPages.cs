using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using ServiceRules.Host.Providers;

namespace ServiceRules.Host.Accounts;

/// <summary>Signing in, and making the first administrator.</summary>
internal static class SignInPages
{
    public const string FirstPlace = "/first-administrator";

    public static void MapSignInPages(this IEndpointRouteBuilder routes)
    {
        routes
            .MapGet(
                AccountServices.SignInPlace,
                (HttpContext context, string? then) => SignIn(context, then, "", [])
            )
            .ExcludeFromDescription();
        routes.MapPost(AccountServices.SignInPlace, TakeSignInAsync).TakesForm();
        routes.MapGet(FirstPlace, (HttpContext context) => First(context, "", [])).ExcludeFromDescription();
        routes.MapPost(FirstPlace, TakeFirstAsync).TakesForm();
    }

    private static async Task<IResult> TakeSignInAsync(
        HttpContext context,
        SignInDesk desk,
        CancellationToken stop
    )
    {
        var form = await context.Request.ReadFormAsync(stop);
        var name = form["name"].ToString();
        var then = form["then"].ToString();
        var outcome = await desk.SignInAsync(name, form["password"].ToString(), stop);
        return outcome is null ? SignInTurns.Others(context)
            : outcome.IsDone ? SeeOther.At(context, SeeOther.Local(then))
            : SignIn(context, then, name, outcome.Problems);
    }

    private static async Task<IResult> TakeFirstAsync(
        HttpContext context,
        AccountDesk desk,
        SignInTurns turns,
        CancellationToken stop
    )
    {
        var form = await context.Request.ReadFormAsync(stop);
        var name = form["name"].ToString();
        var outcome = await turns.TakeAsync(
            () => desk.FirstAsync(form["secret"].ToString().Trim(), name, form["password"].ToString()),
            stop
        );
        return outcome is null ? SignInTurns.Others(context)
            : outcome.IsDone ? SeeOther.At(context, AccountServices.SignInPlace)
            : First(context, name, outcome.Problems);
    }

    /// <summary>The page again, with why nobody was signed in.</summary>
    public static IResult Refused(HttpContext context, string? then, IReadOnlyList<string> problems) =>
        SignIn(context, then, "", problems);

    private static RazorComponentResult<SignInPage> SignIn(
        HttpContext context,
        string? then,
        string name,
        IReadOnlyList<string> problems
    ) =>
        Shown<SignInPage>(
            problems,
            new(StringComparer.Ordinal)
            {
                [nameof(SignInPage.Token)] = FormToken.Of(context),
                [nameof(SignInPage.Then)] = SeeOther.Local(then),
                [nameof(SignInPage.Name)] = name,
                [nameof(SignInPage.Provider)] = context.RequestServices.GetRequiredService<Provider>().Name,
                [nameof(SignInPage.Problems)] = problems,
            }
        );

    private static RazorComponentResult<FirstAdministratorPage> First(
        HttpContext context,
        string name,
        IReadOnlyList<string> problems
    ) =>
        Shown<FirstAdministratorPage>(
            problems,
            new(StringComparer.Ordinal)
            {
                [nameof(FirstAdministratorPage.Token)] = FormToken.Of(context),
                [nameof(FirstAdministratorPage.Name)] = name,
                [nameof(FirstAdministratorPage.Problems)] = problems,
            }
        );

    private static RazorComponentResult<TPage> Shown<TPage>(
        IReadOnlyList<string> problems,
        Dictionary<string, object?> told
    )
        where TPage : Microsoft.AspNetCore.Components.IComponent =>
        new(told)
        {
            StatusCode =
                problems.Count == 0 ? StatusCodes.Status200OK : StatusCodes.Status422UnprocessableEntity,
        };
}
