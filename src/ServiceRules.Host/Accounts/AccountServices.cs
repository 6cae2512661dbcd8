using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Net.Http.Headers;
using ServiceRules.Application.Accounts;
using ServiceRules.Host.Setup;

namespace ServiceRules.Host.Accounts;

/// <summary>Who is known, and what they may do.</summary>
internal static class AccountServices
{
    public const string SignInPlace = "/sign-in";

    private const string Chooser = "caller";

    private const int FewestCharacters = 12;

    // As OWASP's cheat sheet on password storage has it for PBKDF2 with SHA-512.
    private const int Rounds = 210_000;

    private const int Tries = 5;
    private static readonly TimeSpan LockTime = TimeSpan.FromMinutes(15);

    // A shift: whoever leaves a screen signed in is out by the next day.
    private static readonly TimeSpan SessionTime = TimeSpan.FromHours(9);

    public static IServiceCollection AddAccounts(this IServiceCollection services, ServiceFolder folder)
    {
        services.AddSingleton(folder.Accounts);
        services.AddSingleton<KeyMaking>();
        services.AddSingleton<SignInTurns>();
        services.AddScoped<AccountDesk>();
        services.AddScoped<SignInDesk>();
        services
            .AddIdentityCore<AccountUser>(Demand)
            .AddUserStore<IdentityStore>()
            .AddClaimsPrincipalFactory<CallerPrincipal>()
            .AddSignInManager();
        services.Configure<PasswordHasherOptions>(options => options.IterationCount = Rounds);
        AddSchemes(services);
        services.AddSingleton<IAuthorizationHandler, AccessHandler>();
        services
            .AddAuthorizationBuilder()
            .SetFallbackPolicy(
                new AuthorizationPolicyBuilder().AddRequirements(new AccessRequirement()).Build()
            );
        services.AddAntiforgery(options =>
        {
            options.Cookie.Name = "servicerules-form";
            Guard(options.Cookie);
        });
        return services;
    }

    public static void UseAccounts(this IApplicationBuilder app)
    {
        app.UseAuthentication();
        app.UseAuthorization();
        // A screen at a bench is shared: after somebody signed out, going back shows nothing of theirs.
        app.Use(
            (context, next) =>
            {
                if (Caller.Of(context.User) is { IsKey: false })
                {
                    context.Response.Headers.CacheControl = "no-store";
                }

                return next(context);
            }
        );
    }

    private static void Demand(IdentityOptions options)
    {
        options.Lockout.MaxFailedAccessAttempts = Tries;
        options.Lockout.DefaultLockoutTimeSpan = LockTime;
        // Length is what makes a password hard to guess; signs that are asked for are put at its end.
        options.Password.RequiredLength = FewestCharacters;
        options.Password.RequireDigit = false;
        options.Password.RequireLowercase = false;
        options.Password.RequireUppercase = false;
        options.Password.RequireNonAlphanumeric = false;
        options.Password.RequiredUniqueChars = 5;
    }

    private static void AddSchemes(IServiceCollection services)
    {
        services
            .AddAuthentication(Chooser)
            .AddPolicyScheme(
                Chooser,
                null,
                options =>
                    options.ForwardDefaultSelector = context =>
                        context.Request.Headers.ContainsKey(HeaderNames.Authorization)
                            ? KeyScheme.Name
                            : IdentityConstants.ApplicationScheme
            )
            .AddScheme<AuthenticationSchemeOptions, KeyScheme>(KeyScheme.Name, null)
            .AddCookie(
                IdentityConstants.ApplicationScheme,
                options =>
                {
                    options.Cookie.Name = "servicerules";
                    Guard(options.Cookie);
                    options.ExpireTimeSpan = SessionTime;
                    options.SlidingExpiration = false;
                    options.Events.OnValidatePrincipal = RenewAsync;
                    options.Events.OnRedirectToLogin = AskToSignIn;
                    options.Events.OnRedirectToAccessDenied = Refuse;
                }
            );
    }

    private static void Guard(CookieBuilder cookie)
    {
        cookie.HttpOnly = true;
        cookie.SameSite = Microsoft.AspNetCore.Http.SameSiteMode.Strict;
        // Without TLS the service listens on loopback alone.
        cookie.SecurePolicy = CookieSecurePolicy.SameAsRequest;
        cookie.IsEssential = true;
    }

    // At each request: what an administrator takes away is gone at once.
    private static async Task RenewAsync(CookieValidatePrincipalContext context)
    {
        var signing = context.HttpContext.RequestServices.GetRequiredService<SignInManager<AccountUser>>();
        if (await signing.ValidateSecurityStampAsync(context.Principal) is { Stored.IsLocked: false } user)
        {
            context.ReplacePrincipal(await signing.CreateUserPrincipalAsync(user));
            return;
        }

        context.RejectPrincipal();
    }

    // Programs are not led anywhere: they would take the page for the answer.
    private static bool IsForPage(HttpRequest request) =>
        HttpMethods.IsGet(request.Method)
        && !request.Path.StartsWithSegments("/api", StringComparison.OrdinalIgnoreCase);

    private static Task AskToSignIn(RedirectContext<CookieAuthenticationOptions> context)
    {
        var request = context.Request;
        if (IsForPage(request))
        {
            context.Response.Redirect(
                SignInPlace + QueryString.Create("then", request.Path.ToUriComponent() + request.QueryString)
            );
            return Task.CompletedTask;
        }

        context.Response.Headers[HeaderNames.WWWAuthenticate] = "Bearer";
        context.Response.StatusCode = StatusCodes.Status401Unauthorized;
        return Task.CompletedTask;
    }

    private static Task Refuse(RedirectContext<CookieAuthenticationOptions> context)
    {
        if (IsForPage(context.Request) && Caller.Of(context.HttpContext.User)?.MustChange is true)
        {
            context.Response.Redirect(AccountPages.Place);
            return Task.CompletedTask;
        }

        context.Response.StatusCode = StatusCodes.Status403Forbidden;
        return Task.CompletedTask;
    }
}
