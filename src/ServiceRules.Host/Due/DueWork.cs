using System.Diagnostics.CodeAnalysis;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using ServiceRules.Application.Working;
using ServiceRules.Host.Sites;

namespace ServiceRules.Host.Due;

/// <summary>
/// Finds out each day of each site what falls due, and has it told. It looks again and again whether the day changed
/// there, or something was filed since.
/// </summary>
internal sealed partial class DueWork(
    DueDesk desk,
    ServedSites sites,
    TimeProvider clock,
    IHostApplicationLifetime life,
    ILogger<DueWork> log
) : IWork
{
    public const string Daily = "daily";

    private static readonly TimeSpan Least = TimeSpan.FromMinutes(1);
    private static readonly TimeSpan Most = TimeSpan.FromMinutes(10);

    // A twentieth of the time goes by over it, unless it takes longer than half a minute.
    private const int PausesToLook = 19;

    public string Kind => "due";

    public Task<TimeSpan?> DoAsync(string what, CancellationToken stop)
    {
        using var ending = CancellationTokenSource.CreateLinkedTokenSource(stop, life.ApplicationStopping);
        var began = clock.GetTimestamp();
        try
        {
            foreach (var site in sites.All)
            {
                Go(site, ending.Token);
            }
        }
        catch (OperationCanceledException) when (ending.IsCancellationRequested)
        {
            // The service stops: the next start looks again.
            return Task.FromResult<TimeSpan?>(TimeSpan.FromSeconds(1));
        }

        var pause = clock.GetElapsedTime(began) * PausesToLook;
        return Task.FromResult<TimeSpan?>(
            pause < Least ? Least
            : pause > Most ? Most
            : pause
        );
    }

    [SuppressMessage(
        "Design",
        "CA1031",
        Justification = "What goes wrong at one site keeps no other from being told; it is told in the log and tried again."
    )]
    private void Go(ServedSite site, CancellationToken stop)
    {
        try
        {
            if (desk.Go(site, stop) is var count and > 0)
            {
                Told(log, count);
            }
        }
        catch (Exception failure) when (failure is not OperationCanceledException)
        {
            Failed(log, failure);
        }
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "what falls due at a site cannot be found out now")]
    private static partial void Failed(ILogger logger, Exception failure);

    [LoggerMessage(Level = LogLevel.Information, Message = "{Count} things that fall due are told of")]
    private static partial void Told(ILogger logger, int count);
}
