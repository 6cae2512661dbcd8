using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.OpenIdConnect;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Options;
using Microsoft.IdentityModel.Protocols.OpenIdConnect;
using Microsoft.IdentityModel.Tokens;
using ServiceRules.Host.Accounts;

namespace ServiceRules.Host.Providers;

/// <summary>The way to the provider, and back from it.</summary>
internal static partial class ProviderPages
{
    public const string Place = AccountServices.SignInPlace + "/elsewhere";
    public const string BackPlace = Place + "/back";

    public static void MapProviderPages(this IEndpointRouteBuilder routes)
    {
        routes.MapGet(Place, LeadAsync).ExcludeFromDescription();
        // Taken before routes are, where there is a provider.
        routes.MapGet(BackPlace, () => Results.NotFound()).ExcludeFromDescription();
    }

    /// <summary>Somebody is back, and what the provider told of them holds.</summary>
    public static async Task TakeAsync(TicketReceivedContext context)
    {
        context.HandleResponse();
        var http = context.HttpContext;
        var desk = http.RequestServices.GetRequiredService<ProviderDesk>();
        var outcome = await desk.SignInAsync(context.Principal!);
        if (!outcome.IsDone)
        {
            await SignInPages.Refused(http, context.ReturnUri, outcome.Problems).ExecuteAsync(http);
            return;
        }

        // A browser that was led here from another site sends no session along when it is led on at once: it is asked to go
        // on by itself, from a page of this one.
        var then = SeeOther.Local(context.ReturnUri);
        http.Response.Headers.CacheControl = "no-store";
        http.Response.Headers["Refresh"] = $"0; url={then}";
        await new RazorComponentResult<SignedInPage>(
            new Dictionary<string, object?>(StringComparer.Ordinal) { [nameof(SignedInPage.Then)] = then }
        ).ExecuteAsync(http);
    }

    public static Task RefuseDeniedAsync(AccessDeniedContext context)
    {
        context.HandleResponse();
        return RefuseAsync(
            context.HttpContext,
            context.ReturnUrl,
            "{0} did not let you through; nobody was signed in"
        );
    }

    public static Task RefuseFailedAsync(RemoteFailureContext context)
    {
        context.HandleResponse();
        if (context.Failure is { } failure and not AuthenticationFailureException)
        {
            Failed(context.HttpContext, failure);
        }

        return RefuseAsync(
            context.HttpContext,
            context.Properties?.RedirectUri,
            "what came back from {0} does not hold, or came too late; nobody was signed in; try again"
        );
    }

    private static async Task<IResult> LeadAsync(
        HttpContext context,
        Provider provider,
        IOptionsMonitor<OpenIdConnectOptions> options,
        string? then,
        CancellationToken stop
    )
    {
        if (provider.Settings is null)
        {
            return Results.NotFound();
        }

        try
        {
            // First, since what fails on the way would be answered as a failure of this service.
            _ = await options
                .Get(ProviderServices.Scheme)
                .ConfigurationManager!.GetConfigurationAsync(stop)
                .WaitAsync(ProviderServices.AnswerTime, stop);
            await context.ChallengeAsync(
                ProviderServices.Scheme,
                new AuthenticationProperties { RedirectUri = SeeOther.Local(then) }
            );
            return Results.Empty;
        }
        catch (Exception failure) when (IsOfTheProvider(failure) && !stop.IsCancellationRequested)
        {
            Failed(context, failure);
            return SignInPages.Refused(
                context,
                then,
                [$"{provider.Name} does not answer, or not as it should; try again in a moment"]
            );
        }
    }

    private static bool IsOfTheProvider(Exception failure) =>
        failure
            is InvalidOperationException
                or HttpRequestException
                or IOException
                or OperationCanceledException
                or TimeoutException
                or ArgumentException
                or SecurityTokenException
                or OpenIdConnectProtocolException;

    private static Task RefuseAsync(HttpContext http, string? then, string why) =>
        SignInPages
            .Refused(
                http,
                then,
                [
                    string.Format(
                        System.Globalization.CultureInfo.InvariantCulture,
                        why,
                        http.RequestServices.GetRequiredService<Provider>().Name
                    ),
                ]
            )
            .ExecuteAsync(http);

    // What failed and not what was sent: people stand in that.
    private static void Failed(HttpContext http, Exception failure) =>
        NotSignedIn(
            http.RequestServices.GetRequiredService<ILoggerFactory>()
                .CreateLogger(typeof(ProviderPages).FullName!),
            failure.GetBaseException().GetType().Name
        );

    [LoggerMessage(Level = LogLevel.Warning, Message = "signing in elsewhere failed: {What}")]
    private static partial void NotSignedIn(ILogger log, string what);
}
