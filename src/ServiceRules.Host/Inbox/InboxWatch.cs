using System.Diagnostics.CodeAnalysis;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;

namespace ServiceRules.Host.Inbox;

/// <summary>Looks into the inbox again and again while the service runs.</summary>
internal sealed partial class InboxWatch(
    InboxRounds rounds,
    InboxSettings settings,
    TimeProvider clock,
    ILogger<InboxWatch> log
) : BackgroundService
{
    [SuppressMessage(
        "Design",
        "CA1031",
        Justification = "Whatever one round ends with, the service goes on, and what was dropped stays where it is."
    )]
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        using var timer = new PeriodicTimer(settings.Every, clock);
        try
        {
            while (await timer.WaitForNextTickAsync(stoppingToken))
            {
                try
                {
                    await rounds.RunAsync(stoppingToken);
                }
                catch (Exception failure) when (failure is not OperationCanceledException)
                {
                    Failed(log, failure);
                    rounds.Wait("a round failed", failure.GetType().Name);
                }
            }
        }
        catch (OperationCanceledException)
        {
            // The service stops: what was taken and not put away is taken up at the next start.
        }
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "a round through the inbox failed")]
    private static partial void Failed(ILogger logger, Exception failure);
}
