using System.Threading.RateLimiting;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Timeouts;
using Microsoft.AspNetCore.RateLimiting;
using Microsoft.Extensions.DependencyInjection;
using ServiceRules.Host.Problems;

namespace ServiceRules.Host.Limits;

/// <summary>How many requests are taken, how many at once, and how long each may take.</summary>
internal static class RequestLimits
{
    public static IServiceCollection AddLimits(this IServiceCollection services, ServiceLimits limits)
    {
        services.AddRequestTimeouts(options =>
            options.DefaultPolicy = new RequestTimeoutPolicy
            {
                Timeout = limits.RequestTime,
                TimeoutStatusCode = StatusCodes.Status503ServiceUnavailable,
            }
        );
        return services.AddRateLimiter(options =>
        {
            options.GlobalLimiter = PartitionedRateLimiter.CreateChained(ByAddress(limits), Together(limits));
            options.OnRejected = (rejected, _) => new ValueTask(RejectAsync(rejected));
        });
    }

    public static void UseLimits(this IApplicationBuilder app)
    {
        app.UseRateLimiter();
        app.UseRequestTimeouts();
    }

    private static PartitionedRateLimiter<HttpContext> ByAddress(ServiceLimits limits) =>
        PartitionedRateLimiter.Create<HttpContext, string>(context =>
            RateLimitPartition.GetTokenBucketLimiter(
                context.Connection.RemoteIpAddress?.ToString() ?? "",
                _ => new TokenBucketRateLimiterOptions
                {
                    TokenLimit = limits.RequestsAtOnce,
                    TokensPerPeriod = limits.RequestsPerSecond,
                    ReplenishmentPeriod = TimeSpan.FromSeconds(1),
                    QueueLimit = 0,
                }
            )
        );

    private static PartitionedRateLimiter<HttpContext> Together(ServiceLimits limits) =>
        PartitionedRateLimiter.Create<HttpContext, string>(_ =>
            RateLimitPartition.GetConcurrencyLimiter(
                "",
                _ => new ConcurrencyLimiterOptions
                {
                    PermitLimit = limits.RequestsUnderWay,
                    QueueLimit = limits.RequestsWaiting,
                    QueueProcessingOrder = QueueProcessingOrder.OldestFirst,
                }
            )
        );

    private static Task RejectAsync(OnRejectedContext rejected)
    {
        var response = rejected.HttpContext.Response;
        response.Headers.RetryAfter = "1";
        return rejected.Lease.TryGetMetadata(MetadataName.RetryAfter, out _)
            ? Complaint.Of(ProblemKind.TooMany, "ask again in a second").ExecuteAsync(rejected.HttpContext)
            : Complaint
                .Of(ProblemKind.Busy, "too many requests are under way; ask again in a second")
                .ExecuteAsync(rejected.HttpContext);
    }
}
