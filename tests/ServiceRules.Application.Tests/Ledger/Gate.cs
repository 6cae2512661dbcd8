namespace ServiceRules.Application.Tests.Ledger;

/// <summary>Keeps whoever comes waiting until it is opened.</summary>
internal sealed class Gate
{
    private readonly TaskCompletionSource _opened = new();

    public void Wait() => _opened.Task.Wait(TimeSpan.FromSeconds(60));

    public void Open() => _opened.TrySetResult();
}
