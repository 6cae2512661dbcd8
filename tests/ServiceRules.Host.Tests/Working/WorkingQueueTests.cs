using Microsoft.Extensions.Logging.Abstractions;
using ServiceRules.Application.Working;
using ServiceRules.Host.Setup;
using ServiceRules.Host.Working;

namespace ServiceRules.Host.Tests.Working;

public sealed class WorkingQueueTests
{
    [Fact]
    public async Task Queue_ThatIsJustBegunWhileTheInstanceStops_IsWaitedForAndClosed()
    {
        var place = Directory.CreateTempSubdirectory("servicerules-queue-");
        using var isBeginning = new ManualResetEventSlim();
        using var mayGoOn = new ManualResetEventSlim();
        try
        {
            using var folder = ServiceFolder.Open(Path.Combine(place.FullName, "data"), TimeProvider.System);
            var working = new WorkingQueue(folder, Slow(), NullLogger<LoggedWork>.Instance);

            var opening = Task.Run(() => working.OpenedAsync(CancellationToken.None));
            isBeginning.Wait();
            var ending = working.DisposeAsync().AsTask();
            var late = working.OpenedAsync(CancellationToken.None);
            await Task.Delay(100);
            Assert.False(ending.IsCompleted, "what is being begun was not waited for");
            mayGoOn.Set();

            _ = await opening;
            await ending;
            _ = await Assert.ThrowsAsync<ObjectDisposedException>(() => late);
            _ = await Assert.ThrowsAsync<ObjectDisposedException>(() =>
                working.OpenedAsync(CancellationToken.None)
            );
        }
        finally
        {
            place.Delete(recursive: true);
        }

        IEnumerable<IWork> Slow()
        {
            isBeginning.Set();
            mayGoOn.Wait();
            yield break;
        }
    }
}
