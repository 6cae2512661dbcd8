using System.Diagnostics.CodeAnalysis;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using ServiceRules.Host.Notices;

namespace ServiceRules.Host.Working;

/// <summary>
/// Hands what is owed to the queue: at start and every ten minutes all of it, else what came since, here or by another instance.
/// The queue is opened when something is owed first.
/// </summary>
internal sealed partial class WorkRounds(
    WorkingQueue working,
    ServiceSettings settings,
    IEnumerable<IOwedWork> kinds,
    NoticeBell bell,
    ILogger<WorkRounds> log
) : BackgroundService
{
    // Work that the queue could not take again, its database being away, stands in the table alone.
    private static readonly TimeSpan ThroughAll = TimeSpan.FromMinutes(10);

    // Others file as well: another instance, or an import by command.
    private static readonly TimeSpan Every = TimeSpan.FromSeconds(15);

    private readonly IReadOnlyList<IOwedWork> all = [.. kinds];
    private DateTimeOffset? wentThroughAll;

    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        await Task.Yield();
        try
        {
            while (true)
            {
                await RoundAsync(stoppingToken);
                await bell.WaitAsync(Every, stoppingToken);
            }
        }
        catch (OperationCanceledException)
        {
            // The service stops: what waits is taken up at the next start.
        }
    }

    private async Task RoundAsync(CancellationToken stop)
    {
        var now = settings.Clock.GetUtcNow();
        var isAll = wentThroughAll is not { } last || now - last >= ThroughAll;
        var isWhole = true;
        foreach (var kind in all)
        {
            isWhole &= await HandedAsync(kind, isAll, stop);
        }

        if (isAll && isWhole)
        {
            wentThroughAll = now;
        }
    }

    // One kind that fails keeps no other from the queue.
    [SuppressMessage(
        "Design",
        "CA1031",
        Justification = "Whatever one round ends with, the service goes on, and what waits stays where it is."
    )]
    private async Task<bool> HandedAsync(IOwedWork kind, bool isAll, CancellationToken stop)
    {
        try
        {
            foreach (var what in kind.Owed(isAll))
            {
                var queue = await working.OpenedAsync(stop);
                await queue.AddAsync(kind.Work.Kind, what, stop);
            }

            return true;
        }
        catch (Exception failure) when (failure is not OperationCanceledException)
        {
            Failed(log, failure);
            return false;
        }
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "a round through what is owed failed")]
    private static partial void Failed(ILogger logger, Exception failure);
}
