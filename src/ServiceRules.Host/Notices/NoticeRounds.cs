using System.Diagnostics.CodeAnalysis;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using ServiceRules.Application.Notices;
using ServiceRules.Host.Working;

namespace ServiceRules.Host.Notices;

/// <summary>Hands what waits to the queue: at start and every ten minutes all of it, else what was filed since, here or by another instance.</summary>
internal sealed partial class NoticeRounds(
    WorkingQueue working,
    INoticeStore store,
    ServiceSettings settings,
    NoticeWork work,
    NoticeBell bell,
    NoticeMeter meter,
    ILogger<NoticeRounds> log
) : BackgroundService
{
    // Work that the queue could not take again, its database being away, stands in the table alone.
    private static readonly TimeSpan ThroughAll = TimeSpan.FromMinutes(10);

    // Others file as well: another instance, or an import by command.
    private static readonly TimeSpan Every = TimeSpan.FromSeconds(15);

    private long from;
    private DateTimeOffset? wentThroughAll;

    [SuppressMessage(
        "Design",
        "CA1031",
        Justification = "Whatever one round ends with, the service goes on, and what waits stays where it is."
    )]
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        await Task.Yield();
        try
        {
            while (true)
            {
                try
                {
                    await RoundAsync(stoppingToken);
                }
                catch (Exception failure) when (failure is not OperationCanceledException)
                {
                    Failed(log, failure);
                }

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
        var queue = await working.OpenedAsync(stop);
        var now = settings.Clock.GetUtcNow();
        if (wentThroughAll is not { } last || now - last >= ThroughAll)
        {
            from = 0;
        }

        var isAll = from == 0;
        foreach (var notice in store.Waiting(from))
        {
            await queue.AddAsync(work.Kind, NoticeWork.WhatOf(notice), stop);
            // Those of one assessment were kept together; what is asked for twice is one work. What is tried anew is older.
            from = Math.Max(from, notice.Entry);
        }

        if (isAll)
        {
            wentThroughAll = now;
        }

        meter.Stands(store.Count());
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "a round through the notices failed")]
    private static partial void Failed(ILogger logger, Exception failure);
}
