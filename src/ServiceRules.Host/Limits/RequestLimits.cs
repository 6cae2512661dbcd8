using System.Globalization;
using System.Threading.RateLimiting;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.Timeouts;
using Microsoft.AspNetCore.RateLimiting;
using Microsoft.Extensions.DependencyInjection;
using ServiceRules.Host.Accounts;
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
            options.GlobalLimiter = PartitionedRateLimiter.CreateChained(
                ByAddress(limits),
                SignIns(limits),
                Together(limits)
            );
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

    // One account is locked by a few wrong passwords; this is for one guess at each of many accounts.
    private static PartitionedRateLimiter<HttpContext> SignIns(ServiceLimits limits) =>
        PartitionedRateLimiter.Create<HttpContext, string>(context =>
            HttpMethods.IsPost(context.Request.Method)
            && (
                context.Request.Path.StartsWithSegments(
                    AccountServices.SignInPlace,
                    StringComparison.OrdinalIgnoreCase
                )
                || context.Request.Path.StartsWithSegments(
                    SignInPages.FirstPlace,
                    StringComparison.OrdinalIgnoreCase
                )
            )
                ? RateLimitPartition.GetTokenBucketLimiter(
                    context.Connection.RemoteIpAddress?.ToString() ?? "",
                    _ => new TokenBucketRateLimiterOptions
                    {
                        TokenLimit = limits.SignInsAtOnce,
                        TokensPerPeriod = 1,
                        ReplenishmentPeriod = TimeSpan.FromMinutes(1) / limits.SignInsPerMinute,
                        QueueLimit = 0,
                    }
                )
                : RateLimitPartition.GetNoLimiter("")
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
        var later = rejected.Lease.TryGetMetadata(MetadataName.RetryAfter, out var after)
            ? Math.Max(1, (int)Math.Ceiling(after.TotalSeconds))
            : 1;
        response.Headers.RetryAfter = later.ToString(CultureInfo.InvariantCulture);
        return after > TimeSpan.Zero
            ? Complaint
                .Of(
                    ProblemKind.TooMany,
                    later == 1 ? "ask again in a second" : $"ask again in {later} seconds"
                )
                .ExecuteAsync(rejected.HttpContext)
            : Complaint
                .Of(ProblemKind.Busy, "too many requests are under way; ask again in a second")
                .ExecuteAsync(rejected.HttpContext);
    }
}
