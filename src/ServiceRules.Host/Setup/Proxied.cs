using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.HttpOverrides;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Setup;

/// <summary>What a proxy in front says of a request: from whom it came, by TLS or not, and under which name.</summary>
internal static class Proxied
{
    /// <summary>Takes it from the proxy alone. What others write there is not looked at.</summary>
    public static void UseProxy(this IApplicationBuilder app, ProxySettings? proxy)
    {
        if (proxy is null)
        {
            return;
        }

        var options = new ForwardedHeadersOptions
        {
            ForwardedHeaders =
                ForwardedHeaders.XForwardedFor
                | ForwardedHeaders.XForwardedProto
                | ForwardedHeaders.XForwardedHost,
            // The proxy itself wrote the last one; those before it are whatever was sent to it.
            ForwardLimit = 1,
        };
        options.KnownProxies.Clear();
        options.KnownIPNetworks.Clear();
        foreach (var network in proxy.Trusted)
        {
            options.KnownIPNetworks.Add(network);
        }

        app.UseForwardedHeaders(options);
    }

    /// <summary>
    /// Turns away what came by the proxy and not as it should: a proxy that does not say by which name, or that it was by TLS,
    /// would have people sign in by sessions that could be read on the way.
    /// </summary>
    public static void UsePublicName(this IApplicationBuilder app, ProxySettings? proxy)
    {
        if (proxy is not null)
        {
            app.Use(
                (context, next) =>
                    Fault(context.Request, proxy) is { } fault
                        ? Complaint.Of(ProblemKind.BadRequest, fault).ExecuteAsync(context)
                        : next(context)
            );
        }
    }

    private static string? Fault(HttpRequest request, ProxySettings proxy)
    {
        var isPublic = string.Equals(
            request.Host.Host,
            proxy.Public.IdnHost,
            StringComparison.OrdinalIgnoreCase
        );
        return isPublic && !request.IsHttps
                ? "the public name is answered by https alone; the proxy says so with `X-Forwarded-Proto: https`"
            : !isPublic && IsForwarded(request)
                ? "the service is asked for under a name that is not its own; the proxy says which with `X-Forwarded-Host`"
            : null;
    }

    // What the middleware leaves where it took something.
    private static bool IsForwarded(HttpRequest request) =>
        request.Headers.ContainsKey(ForwardedHeadersDefaults.XOriginalForHeaderName)
        || request.Headers.ContainsKey(ForwardedHeadersDefaults.XOriginalProtoHeaderName)
        || request.Headers.ContainsKey(ForwardedHeadersDefaults.XOriginalHostHeaderName);
}
