using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using ServiceRules.Application.Working;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Due;

/// <summary>
/// Finds out each day of each site what falls due, and has it told. Every ten minutes it looks whether the day changed
/// there, or something was filed since.
/// </summary>
internal sealed partial class DueWork(
    DueDesk desk,
    ServedSites sites,
    IHostApplicationLifetime life,
    ILogger<DueWork> log
) : IWork
{
    public const string Daily = "daily";

    private static readonly TimeSpan Pause = TimeSpan.FromMinutes(10);

    public string Kind => "due";

    public Task<TimeSpan?> DoAsync(string what, CancellationToken stop)
    {
        using var ending = CancellationTokenSource.CreateLinkedTokenSource(stop, life.ApplicationStopping);
        try
        {
            foreach (var site in sites.All)
            {
                if (desk.Go(site, ending.Token) is var count and > 0)
                {
                    Told(log, count);
                }
            }
        }
        catch (OperationCanceledException) when (ending.IsCancellationRequested)
        {
            // The service stops: the next start looks again.
            return Task.FromResult<TimeSpan?>(TimeSpan.FromSeconds(1));
        }

        return Task.FromResult<TimeSpan?>(Pause);
    }

    [LoggerMessage(Level = LogLevel.Information, Message = "{Count} things that fall due are told of")]
    private static partial void Told(ILogger logger, int count);
}
