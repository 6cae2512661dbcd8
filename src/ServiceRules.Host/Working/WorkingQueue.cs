using Microsoft.Extensions.Logging;
using ServiceRules.Application.Working;
using ServiceRules.Host.Setup;

namespace ServiceRules.Host.Working;

/// <summary>The one queue of this instance, begun when something is first asked of it.</summary>
internal sealed class WorkingQueue(ServiceFolder folder, IEnumerable<IWork> kinds, ILogger<LoggedWork> log)
    : IAsyncDisposable
{
#pragma warning disable CA2213 // Closed in DisposeAsync, the queue once what is under way has ended, the turn never: it holds nothing.
    private readonly SemaphoreSlim turn = new(1);
    private IWorkQueue? queue;
#pragma warning restore CA2213
    private bool isEnded;

    /// <exception cref="ObjectDisposedException">The instance stops: nothing is begun any more.</exception>
    public async Task<IWorkQueue> OpenedAsync(CancellationToken stop)
    {
        await turn.WaitAsync(stop);
        try
        {
            ObjectDisposedException.ThrowIf(isEnded, this);
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

    /// <summary>Waits for what is under way, also where somebody is just beginning the queue.</summary>
    public async ValueTask DisposeAsync()
    {
        // The turn itself is not disposed of: whoever still waits for it is told that it is over.
        await turn.WaitAsync();
        try
        {
            isEnded = true;
            if (queue is { } working)
            {
                queue = null;
                await working.DisposeAsync();
            }
        }
        finally
        {
            turn.Release();
        }
    }
}
