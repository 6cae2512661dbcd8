using Microsoft.Extensions.Logging;
using ServiceRules.Application.Working;
using ServiceRules.Host.Setup;

namespace ServiceRules.Host.Working;

/// <summary>The one queue of this instance, begun when something is first asked of it.</summary>
internal sealed class WorkingQueue(ServiceFolder folder, IEnumerable<IWork> kinds, ILogger<LoggedWork> log)
    : IAsyncDisposable
{
    private readonly SemaphoreSlim turn = new(1);
#pragma warning disable CA2213 // Closed in DisposeAsync: it waits for what is under way.
    private IWorkQueue? queue;
#pragma warning restore CA2213

    public async Task<IWorkQueue> OpenedAsync(CancellationToken stop)
    {
        await turn.WaitAsync(stop);
        try
        {
            if (queue is { } working)
            {
                return working;
            }

            var opened = folder.OpenWork();
            try
            {
                await opened.StartAsync([.. kinds.Select(kind => new LoggedWork(kind, log))], stop);
            }
            catch
            {
                await opened.DisposeAsync();
                throw;
            }

            return queue = opened;
        }
        finally
        {
            turn.Release();
        }
    }

    /// <summary>Waits for what is under way.</summary>
    public async ValueTask DisposeAsync()
    {
        if (queue is { } working)
        {
            queue = null;
            await working.DisposeAsync();
        }

        turn.Dispose();
    }
}
