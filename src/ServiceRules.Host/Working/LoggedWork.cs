using Microsoft.Extensions.Logging;
using ServiceRules.Application.Working;

namespace ServiceRules.Host.Working;

/// <summary>Tells of work that broke off: the queue does it again, and nobody else would hear of it.</summary>
internal sealed partial class LoggedWork(IWork work, ILogger<LoggedWork> log) : IWork
{
    public string Kind => work.Kind;

    public string? SharesWith(string what) => work.SharesWith(what);

    public async Task<TimeSpan?> DoAsync(string what, CancellationToken stop)
    {
        try
        {
            return await work.DoAsync(what, stop);
        }
        catch (Exception defect) when (defect is not OperationCanceledException)
        {
            BrokeOff(log, Kind, what, defect);
            throw;
        }
    }

    [LoggerMessage(Level = LogLevel.Error, Message = "{Kind} {What} broke off and is tried again")]
    private static partial void BrokeOff(ILogger logger, string kind, string what, Exception defect);
}
