using Microsoft.AspNetCore.Authentication.OpenIdConnect;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Microsoft.IdentityModel.Protocols.OpenIdConnect;
using Microsoft.IdentityModel.Tokens;

namespace ServiceRules.Host.Providers;

/// <summary>Signing in with OpenID Connect: by code, with PKCE, nonce and state.</summary>
internal static class ProviderServices
{
    public const string Scheme = "elsewhere";

    // Keys that the provider alone has: with a secret that both know, or with none, others could write what it tells.
    private static readonly string[] Algorithms =
    [
        SecurityAlgorithms.RsaSha256,
        SecurityAlgorithms.RsaSha384,
        SecurityAlgorithms.RsaSha512,
        SecurityAlgorithms.RsaSsaPssSha256,
        SecurityAlgorithms.RsaSsaPssSha384,
        SecurityAlgorithms.RsaSsaPssSha512,
        SecurityAlgorithms.EcdsaSha256,
        SecurityAlgorithms.EcdsaSha384,
        SecurityAlgorithms.EcdsaSha512,
    ];

    public static readonly TimeSpan AnswerTime = TimeSpan.FromSeconds(10);
    private static readonly TimeSpan SigningInTime = TimeSpan.FromMinutes(10);
    private static readonly TimeSpan ClocksApart = TimeSpan.FromMinutes(2);

    public static IServiceCollection AddProvider(this IServiceCollection services, ProviderSettings? settings)
    {
        services.AddSingleton(new Provider(settings));
        if (settings is not null)
        {
            services.AddSingleton(settings);
            services.AddScoped<ProviderDesk>();
            // It repeats what was sent, by strangers too; what failed is told without.
            services.AddLogging(logging =>
                logging.AddFilter(typeof(OpenIdConnectHandler).FullName, LogLevel.None)
            );
            services.AddAuthentication().AddOpenIdConnect(Scheme, options => Set(options, settings));
        }

        return services;
    }

    private static void Set(OpenIdConnectOptions options, ProviderSettings settings)
    {
        options.Authority = settings.Authority.AbsoluteUri;
        options.RequireHttpsMetadata = !settings.Authority.IsLoopback;
        options.ClientId = settings.ClientId;
        options.ClientSecret = settings.ClientSecret;
        options.SignInScheme = IdentityConstants.ApplicationScheme;
        options.CallbackPath = ProviderPages.BackPlace;
        // Whoever signs out here is out here; the provider ends no session of ours behind the account's back.
        options.RemoteSignOutPath = PathString.Empty;
        options.SignedOutCallbackPath = PathString.Empty;

        options.ResponseType = OpenIdConnectResponseType.Code;
        // Back by a link: a form of another site is turned away.
        options.ResponseMode = OpenIdConnectResponseMode.Query;
        options.UsePkce = true;
        options.SaveTokens = false;
        options.GetClaimsFromUserInfoEndpoint = false;
        options.TokenHandler = new SignedTokens();
        options.Scope.Clear();
        options.Scope.Add("openid");
        foreach (var scope in settings.Asked)
        {
            options.Scope.Add(scope);
        }

        options.Prompt = settings.AsksAgain ? "login" : null;
        options.TokenValidationParameters.ValidAlgorithms = Algorithms;
        options.TokenValidationParameters.ClockSkew = ClocksApart;
        options.BackchannelTimeout = AnswerTime;
        options.RemoteAuthenticationTimeout = SigningInTime;
        Guard(options.CorrelationCookie, "servicerules-way-");
        Guard(options.NonceCookie, "servicerules-nonce-");
        options.Events.OnTicketReceived = ProviderPages.TakeAsync;
        options.Events.OnAccessDenied = ProviderPages.RefuseDeniedAsync;
        options.Events.OnRemoteFailure = ProviderPages.RefuseFailedAsync;
    }

    // They come back from another site, by a link.
    private static void Guard(CookieBuilder cookie, string name)
    {
        cookie.Name = name;
        cookie.HttpOnly = true;
        cookie.SameSite = SameSiteMode.Lax;
        cookie.SecurePolicy = CookieSecurePolicy.SameAsRequest;
        cookie.IsEssential = true;
    }
}
