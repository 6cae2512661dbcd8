namespace ServiceRules.Storage.Tests;

/// <summary>What every database must do, each test with a store of its own, made when it is first asked for.</summary>
public abstract class DrawerContract : IAsyncLifetime
{
    private readonly Lazy<Drawer> _drawer;

    private protected DrawerContract(Func<Drawer> drawer) => _drawer = new(drawer);

    private protected Drawer Drawer => _drawer.Value;

    public Task InitializeAsync() => Task.CompletedTask;

    public Task DisposeAsync()
    {
        if (_drawer.IsValueCreated)
        {
            _drawer.Value.Dispose();
        }

        return Task.CompletedTask;
    }
}
