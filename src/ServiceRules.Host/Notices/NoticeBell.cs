using System.Threading.Channels;

namespace ServiceRules.Host.Notices;

/// <summary>Says that something was filed, so that nobody waits until somebody looks. Ringing costs nothing.</summary>
internal sealed class NoticeBell
{
    private readonly Channel<bool> rung = Channel.CreateBounded<bool>(
        new BoundedChannelOptions(1) { FullMode = BoundedChannelFullMode.DropWrite }
    );

    public void Ring() => _ = rung.Writer.TryWrite(true);

    /// <summary>Returns once it was rung, or after the time.</summary>
    public async Task WaitAsync(TimeSpan most, CancellationToken stop)
    {
        using var enough = CancellationTokenSource.CreateLinkedTokenSource(stop);
        enough.CancelAfter(most);
        try
        {
            _ = await rung.Reader.ReadAsync(enough.Token);
        }
        catch (OperationCanceledException) when (!stop.IsCancellationRequested)
        {
            // Time to look anyway.
        }
    }
}
