namespace ServiceRules.Application.Tests.Ledger;

/// <summary>Keeps whoever comes waiting until it is disposed.</summary>
internal sealed class Gate : IDisposable
{
    private readonly TaskCompletionSource _opened = new();

    public void Wait() => _opened.Task.Wait(TimeSpan.FromSeconds(60));

    public void Dispose() => _opened.TrySetResult();
}
