using System.Net.Sockets;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Primitives;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Setup;

/// <summary>What every answer says to browsers, and from where they may ask.</summary>
internal static class Manners
{
    private const string Policy =
        "default-src 'none'; style-src 'self'; img-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";

    private static readonly (string Name, string Value)[] Headers =
    [
        ("Content-Security-Policy", Policy),
        ("X-Content-Type-Options", "nosniff"),
        ("Referrer-Policy", "no-referrer"),
        ("Cross-Origin-Opener-Policy", "same-origin"),
        ("Cross-Origin-Resource-Policy", "same-origin"),
        ("Permissions-Policy", "camera=(), geolocation=(), microphone=()"),
    ];

    public static void UseManners(this IApplicationBuilder app) =>
        app.Use(
            (context, next) =>
            {
                context.Response.OnStarting(() =>
                {
                    var headers = context.Response.Headers;
                    foreach (var (name, value) in Headers)
                    {
                        headers[name] = value;
                    }

                    // Whoever came by TLS once comes by it from then on, and by nothing else.
                    if (context.Request.IsHttps)
                    {
                        headers.StrictTransportSecurity = "max-age=31536000";
                    }

                    // Of a script that no page here has.
                    headers.Remove("blazor-enhanced-nav");
                    // Records name people, so that no cache on the way keeps them; the client itself may ask again.
                    if (headers.CacheControl.Count == 0)
                    {
                        headers.CacheControl = "private, no-cache";
                    }

                    return Task.CompletedTask;
                });
                return next(context);
            }
        );

    /// <summary>Answers HEAD as GET, without what it would send (RFC 9110, section 9.3.2): the server itself leaves that out.</summary>
    public static void UseHeadAsGet(this IApplicationBuilder app)
    {
        app.Use(
            (context, next) =>
            {
                if (HttpMethods.IsHead(context.Request.Method))
                {
                    context.Request.Method = HttpMethods.Get;
                }

                return next(context);
            }
        );
        // Routes are chosen by the method, so that it has to be another before.
        app.UseRouting();
    }

    /// <summary>
    /// Turns away whoever asks for another name than this machine's own: a page of another site, whose name was pointed
    /// here.
    /// </summary>
    public static void UseOwnNames(
        this IApplicationBuilder app,
        ServiceSettings settings,
        ServiceCertificate? certificate
    )
    {
        List<StringSegment> own =
        [
            "localhost",
            "127.0.0.1",
            "[::1]",
            settings.Address.AddressFamily == AddressFamily.InterNetworkV6
                ? $"[{settings.Address}]"
                : settings.Address.ToString(),
            .. (certificate?.Names ?? []).Select(name => new StringSegment(name)),
            .. settings.Proxy is { } proxy ? new StringSegment[] { proxy.Public.IdnHost } : [],
        ];
        app.Use(
            (context, next) =>
                HostString.MatchesAny(context.Request.Host.Host, own)
                    ? next(context)
                    : Complaint
                        .Of(
                            ProblemKind.BadRequest,
                            "the service is asked for under a name that is not its own"
                        )
                        .ExecuteAsync(context)
        );
    }

    /// <summary>
    /// Turns away what a page of another site makes a browser send. Programs name no site, and a browser always does.
    /// </summary>
    public static void UseSameOrigin(this IApplicationBuilder app) =>
        app.Use(
            (context, next) =>
                IsRead(context.Request) || !IsOfAnotherSite(context.Request)
                    ? next(context)
                    : Complaint
                        .Of(ProblemKind.OtherSite, "the request was made by a page of another site")
                        .ExecuteAsync(context)
        );

    private static bool IsRead(HttpRequest request) =>
        HttpMethods.IsGet(request.Method) || HttpMethods.IsHead(request.Method);

    private static bool IsOfAnotherSite(HttpRequest request)
    {
        if (request.Headers["Sec-Fetch-Site"].ToString() is { Length: > 0 } site)
        {
            return site is not ("same-origin" or "none");
        }

        return request.Headers.Origin.ToString() is { Length: > 0 } origin
            && origin != $"{request.Scheme}://{request.Host}";
    }
}
