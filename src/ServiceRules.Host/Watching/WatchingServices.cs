using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Diagnostics.HealthChecks;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Configuration;
using Microsoft.Extensions.DependencyInjection;
using OpenTelemetry;
using OpenTelemetry.Metrics;
using OpenTelemetry.Trace;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Watching;

/// <summary>Whether the service lives and may be asked, and what is measured of it.</summary>
internal static class WatchingServices
{
    // The names that OpenTelemetry gives its own settings.
    private static readonly string[] ExporterSettings =
    [
        "OTEL_EXPORTER_OTLP_ENDPOINT",
        "OTEL_EXPORTER_OTLP_TRACES_ENDPOINT",
        "OTEL_EXPORTER_OTLP_METRICS_ENDPOINT",
    ];

    public static IServiceCollection AddWatching(
        this IServiceCollection services,
        IConfiguration configuration
    )
    {
        services.AddHealthChecks().AddCheck<LedgerHealth>("ledger").AddCheck<SitesHealth>("sites");
        // Nothing leaves this machine unless somebody says where to.
        if (ExporterSettings.Any(name => !string.IsNullOrEmpty(configuration[name])))
        {
            services
                .AddOpenTelemetry()
                .WithTracing(traces => traces.AddSource(ServiceMeter.Name).AddAspNetCoreInstrumentation())
                .WithMetrics(metrics => metrics.AddMeter(ServiceMeter.Name).AddAspNetCoreInstrumentation())
                .UseOtlpExporter();
        }

        return services;
    }

    public static void MapWatching(this WebApplication app)
    {
        app.MapHealthChecks("/health/live", new HealthCheckOptions { Predicate = _ => false })
            .DisableRateLimiting();
        app.MapHealthChecks(
                "/health/ready",
                new HealthCheckOptions
                {
                    ResponseWriter = (context, report) =>
                        context.Response.WriteAsJsonAsync(ToldHealth.Of(report)),
                }
            )
            .DisableRateLimiting();
    }
}
