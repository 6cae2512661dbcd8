using System.Diagnostics.CodeAnalysis;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using ServiceRules.Application.Keeping;
using ServiceRules.Application.Ledger;
using ServiceRules.Host.Working;

namespace ServiceRules.Host.Keeping;

/// <summary>Hands the daily removal to the queue, where the site has said how long contents are kept.</summary>
internal sealed partial class RetentionStart(
    OpenLedger ledger,
    WorkingQueue working,
    RetentionWork work,
    ILogger<RetentionStart> log
) : BackgroundService
{
    [SuppressMessage(
        "Design",
        "CA1031",
        Justification = "Whatever it ends with, the service goes on, and nothing is removed."
    )]
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        await Task.Yield();
        try
        {
            if (ledger.Read(log => RetentionOfLog.Read(log)).Entry is not null)
            {
                var queue = await working.OpenedAsync(stoppingToken);
                await queue.AddAsync(work.Kind, RetentionWork.Daily, stoppingToken);
            }
        }
        catch (OperationCanceledException)
        {
            // The service stops.
        }
        catch (Exception failure)
        {
            Failed(log, failure);
        }
    }

    [LoggerMessage(
        Level = LogLevel.Error,
        Message = "the daily removal could not be handed to the queue: nothing is removed until the next start"
    )]
    private static partial void Failed(ILogger logger, Exception failure);
}
