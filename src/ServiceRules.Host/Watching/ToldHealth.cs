using Microsoft.Extensions.Diagnostics.HealthChecks;

namespace ServiceRules.Host.Watching;

/// <summary>How the service stands, as an answer.</summary>
internal sealed record ToldHealth(string Status, IReadOnlyDictionary<string, ToldHealth.Part> Parts)
{
    public static ToldHealth Of(HealthReport report) =>
        new(
            Word(report.Status),
            report.Entries.ToDictionary(
                entry => entry.Key,
                entry => new Part(Word(entry.Value.Status), entry.Value.Description),
                StringComparer.Ordinal
            )
        );

    private static string Word(HealthStatus status) =>
        status switch
        {
            HealthStatus.Healthy => "ready",
            HealthStatus.Degraded => "filling",
            _ => "not ready",
        };

    internal sealed record Part(string Status, string? Told);
}
